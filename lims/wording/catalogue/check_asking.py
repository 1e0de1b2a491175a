"""The check page's requests: a code to be typed, results and a file to be compared."""

from lims.wording.catalogue.said import Counted, Said

SENTENCES: dict[str, Said] = {
    "results": Said(
        en="Do the results on your paper agree?",
        de="Stimmen die Ergebnisse auf dem Papier?",
        fr="Les résultats de votre document concordent-ils ?",
        es="¿Coinciden los resultados de su documento?",
        pl="Czy wyniki w dokumencie się zgadzają?",
    ),
    "results_more": Said(
        en="Each line below must read as it does on the paper. The table keeps the language and the decimal mark of the paper.",
        de="Jede Zeile muss so lauten wie auf dem Papier. Die Tabelle behält Sprache und Dezimalzeichen des Papiers.",
        fr="Chaque ligne ci-dessous doit se lire comme sur le document. Le tableau garde la langue et le signe décimal du document.",
        es="Cada línea debe leerse igual que en el documento. La tabla conserva el idioma y el signo decimal del documento.",
        pl="Każda pozycja musi brzmieć tak jak w dokumencie. Tabela zachowuje język i znak dziesiętny dokumentu.",
    ),
    "file": Said(
        en="Is your file the one that was issued?",
        de="Ist Ihre Datei die ausgestellte?",
        fr="Votre fichier est-il celui qui a été délivré ?",
        es="¿Es su archivo el que se emitió?",
        pl="Czy to plik, który został wystawiony?",
    ),
    "file_more": Said(
        en="Compare this fingerprint (SHA-256) with the one of your file:",
        de="Diesen Fingerabdruck (SHA-256) mit dem Ihrer Datei vergleichen:",
        fr="Comparez cette empreinte (SHA-256) à celle de votre fichier :",
        es="Compare esta huella (SHA-256) con la de su archivo:",
        pl="Proszę porównać ten skrót (SHA-256) ze skrótem swojego pliku:",
    ),
    "printing": Said(
        en="The file is being printed; its fingerprint stands here in a moment. Load the page again.",
        de="Die Datei wird gerade gedruckt; gleich steht hier ihr Fingerabdruck. Bitte die Seite neu laden.",
        fr="Le fichier est en cours d’impression ; son empreinte figurera ici dans un instant. Rechargez la page.",
        es="El archivo se está imprimiendo; su huella aparecerá aquí en un momento. Vuelva a cargar la página.",
        pl="Plik jest drukowany; za chwilę pojawi się tu jego skrót. Proszę odświeżyć stronę.",
    ),
    "drop": Said(
        en="Choose the file, or drop it here",
        de="Datei wählen oder hier ablegen",
        fr="Choisissez le fichier ou déposez-le ici",
        es="Elija el archivo o suéltelo aquí",
        pl="Proszę wybrać plik lub upuścić go tutaj",
    ),
    "nothing_sent": Said(
        en="Nothing is uploaded: your file stays with you.",
        de="Nichts wird übertragen: Ihre Datei bleibt bei Ihnen.",
        fr="Rien n’est envoyé : votre fichier reste chez vous.",
        es="No se envía nada: su archivo se queda con usted.",
        pl="Nic nie jest wysyłane: plik pozostaje u Państwa.",
    ),
    "comparing": Said(
        en="Comparing…",
        de="Vergleich läuft…",
        fr="Comparaison en cours…",
        es="Comparando…",
        pl="Porównywanie…",
    ),
    "same": Said(
        en="This is the file that was issued.",
        de="Das ist die Datei, die ausgestellt wurde.",
        fr="C’est le fichier qui a été délivré.",
        es="Este es el archivo que se emitió.",
        pl="To jest plik, który został wystawiony.",
    ),
    "other": Said(
        en="This is not the file that was issued. It may have been altered, or saved anew by another program.",
        de="Das ist nicht die Datei, die ausgestellt wurde. Sie kann verändert oder von einem anderen Programm neu gespeichert sein.",
        fr="Ce n’est pas le fichier qui a été délivré. Il a pu être modifié, ou réenregistré par un autre programme.",
        es="Este no es el archivo que se emitió. Puede haber sido modificado o guardado de nuevo con otro programa.",
        pl="To nie jest plik, który został wystawiony. Mógł zostać zmieniony lub zapisany ponownie przez inny program.",
    ),
    "unable": Said(
        en="This browser cannot compare files here. Compare the fingerprint by eye.",
        de="Dieser Browser kann hier keine Dateien vergleichen. Bitte den Fingerabdruck mit dem Auge vergleichen.",
        fr="Ce navigateur ne peut pas comparer de fichiers ici. Comparez l’empreinte à l’œil.",
        es="Este navegador no puede comparar archivos aquí. Compare la huella a simple vista.",
        pl="Ta przeglądarka nie może tu porównywać plików. Proszę porównać skrót wzrokowo.",
    ),
    "photograph": Said(
        en="Send a photograph of the paper to",
        de="Bitte ein Foto des Papiers senden an",
        fr="Envoyez une photographie du document à",
        es="Envíe una fotografía del documento a",
        pl="Proszę przesłać zdjęcie dokumentu na adres",
    ),
    "code": Said(
        en="Code of the certificate",
        de="Code des Zertifikats",
        fr="Code du certificat",
        es="Código del certificado",
        pl="Kod świadectwa",
    ),
    "code_hint": Said(
        en="26 letters and digits beside the QR code; spaces and hyphens do not matter",
        de="26 Buchstaben und Ziffern neben dem QR-Code; Leerzeichen und Bindestriche sind gleichgültig",
        fr="26 lettres et chiffres à côté du code QR ; espaces et traits d’union sont sans importance",
        es="26 letras y cifras junto al código QR; los espacios y guiones no importan",
        pl="26 liter i cyfr obok kodu QR; odstępy i łączniki nie mają znaczenia",
    ),
    "is_number": Said(
        en="That is the number of a certificate. Type the 26 characters printed beside its QR code.",
        de="Das ist die Nummer eines Zertifikats. Bitte die 26 Zeichen eintippen, die neben seinem QR-Code gedruckt sind.",
        fr="C’est le numéro d’un certificat. Saisissez les 26 caractères imprimés à côté de son code QR.",
        es="Ese es el número de un certificado. Teclee los 26 caracteres impresos junto a su código QR.",
        pl="To numer świadectwa. Proszę wpisać 26 znaków wydrukowanych obok kodu QR.",
    ),
    "too_long": Said(
        en="You typed more than 26 characters; a code has 26.",
        de="Mehr als 26 Zeichen sind eingetippt; ein Code hat 26.",
        fr="Vous avez saisi plus de 26 caractères ; un code en a 26.",
        es="Ha tecleado más de 26 caracteres; un código tiene 26.",
        pl="Wpisano więcej niż 26 znaków; kod ma ich 26.",
    ),
    "look_up": Said(
        en="Look it up",
        de="Nachsehen",
        fr="Vérifier",
        es="Consultar",
        pl="Sprawdź",
    ),
    "ask": Said(
        en="Is a certificate genuine?",
        de="Ist ein Zertifikat echt?",
        fr="Un certificat est-il authentique ?",
        es="¿Es auténtico un certificado?",
        pl="Czy świadectwo jest autentyczne?",
    ),
    "ask_more": Said(
        en="Type the code that is printed on it, beside the QR code.",
        de="Den Code eintippen, der neben dem QR-Code gedruckt ist.",
        fr="Saisissez le code qui y est imprimé, à côté du code QR.",
        es="Teclee el código impreso en él, junto al código QR.",
        pl="Proszę wpisać kod wydrukowany na nim obok kodu QR.",
    ),
}

COUNTED: dict[str, Counted] = {
    "too_short": Counted(
        en=("You typed {n} of 26 characters.", "You typed {n} of 26 characters."),
        de=(
            "{n} von 26 Zeichen ist eingetippt.",
            "{n} von 26 Zeichen sind eingetippt.",
        ),
        fr=(
            "Vous avez saisi {n} caractère sur 26.",
            "Vous avez saisi {n} caractères sur 26.",
        ),
        es=("Ha tecleado {n} de 26 caracteres.", "Ha tecleado {n} de 26 caracteres."),
        pl=(
            "Wpisano {n} z 26 znaków.",
            "Wpisano {n} z 26 znaków.",
            "Wpisano {n} z 26 znaków.",
        ),
    ),
}
