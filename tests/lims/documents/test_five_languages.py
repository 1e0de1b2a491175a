"""The same certificate in each language: all of its sentences from that language's catalogue, equal numbers and verdicts."""

import html
import io
import re
import string
from collections.abc import Callable
from dataclasses import replace

import pikepdf
import pytest
from fontTools.ttLib import TTFont

from lims.certificates.data import CertificateData
from lims.documents.certificate import as_html, print_certificate, print_preview
from lims.documents.pdf import ASSETS
from lims.documents.rows import table_of
from lims.documents.statement import statement_of
from lims.documents.words import Words
from lims.wording.catalogue import whole
from lims.wording.languages import LANGUAGES, Language
from tests.lims.documents import languages, samples

TextOf = Callable[[bytes], list[str]]
OTHERS = LANGUAGES[1:]
SAYS: dict[Language, tuple[str, ...]] = {
    "en": (
        *("Certificate of analysis", "revision 0, issued 6 March 2026"),
        *("All six requirements met.", "Five were tested on this lot; line 6 is"),
        *("3 drums, 52.5 kg net", "12 to 16 January 2026", "for 20 batches"),
        *("Oil separation, cone sieve, 30 h,", "mass % – 5.0 2.8 met"),
        *("simple acceptance, without a guard band", "Q1 0.90 g/cm³."),
        *("laboratory manager", "Meaning: reviewed and authorised", "page 1 of 1"),
    ),
    "de": (
        *("Analysenzertifikat", "Revision 0, ausgestellt am 6. März 2026"),
        *("Alle sechs Anforderungen erfüllt.", "Fünf wurden an diesem Los geprüft;"),
        *("3 Fässer, 52,5 kg netto", "12. bis 16. Januar 2026", "für 20 Chargen"),
        *("Ölabscheidung, Kegelsieb,", "Massen-% – 5,0 2,8 erfüllt"),
        *("einfache Annahme, ohne Schutzabstand", "Q1 0,90 g/cm³."),
        *("Leitung des Laboratoriums", "Bedeutung: geprüft und", "Seite 1 von 1"),
    ),
    "fr": (
        *("Certificat d’analyse", "révision 0, délivré le 6 mars 2026"),
        *("Les six exigences sont satisfaites.", "Cinq ont été essayées sur ce lot ;"),
        *("3 fûts, 52,5 kg net", "du 12 au 16 janvier 2026", "pour 20 fabrications"),
        *("Séparation d’huile, tamis", "% (m/m) – 5,0 2,8 satisfaite"),
        *("acceptation simple, sans bande de garde", "Q1 0,90 g/cm³."),
        *("direction du laboratoire", "Signification : vérifié et", "page 1 sur 1"),
    ),
    "es": (
        *("Certificado de análisis", "revisión 0, emitido el 6 de marzo de 2026"),
        *("Se cumplen los seis requisitos.", "Cinco se ensayaron en este lote;"),
        *("3 bidones, 52,5 kg neto", "del 12 al 16 de enero de 2026"),
        *("para 20 fabricaciones", "Separación de aceite,", "% (m/m) – 5,0 2,8 cumple"),
        *("aceptación simple, sin banda de guarda", "Q1 0,90 g/cm³."),
        *("dirección del laboratorio", "Significado: revisado y", "página 1 de 1"),
    ),
    "pl": (
        *("Świadectwo analizy", "rewizja 0, wystawiono 6 marca 2026"),
        *("Spełniono wszystkie 6 wymagań.", "5 zbadano na tej partii; pozycja 6"),
        *("3 beczki, 52,5 kg netto", "A, 30 beczek po 17,5 kg"),
        *("od 12 do 16 stycznia 2026", "dla 20 szarż"),
        *("Wydzielanie oleju, sito", "% (m/m) – 5,0 2,8 spełnione"),
        *("prosta akceptacja, bez pasma ochronnego", "Q1 0,90 g/cm³."),
        *("kierownik laboratorium", "Znaczenie: sprawdzono i", "strona 1 z 1"),
    ),
}
SHELVES = ("paper", "rules", "procedures", "units", "labels", "packs")
MADE = [
    languages.in_language,
    languages.not_all_met,
    lambda language: languages.in_language(language, samples.PREVIEW),
]


def words_on(data: CertificateData) -> str:
    """Everything that a reader or a screen reader is told, tags taken away."""
    page = as_html(data)
    told = re.sub(r"<style.*?</style>|src=\"[^\"]*\"|class=\"[^\"]*\"", " ", page)
    told = re.sub(r"</?\w+|[<>=\"]|lang=|data-\w+", " ", told)
    return re.sub(r"\s+", " ", html.unescape(told))


def pieces(shelf: str, language: Language) -> set[str]:
    """What stands between the open places of each sentence: three letters or more."""
    found = set()
    for said in whole.SHELVES[shelf].values():
        found |= _between(said.into(language))
    for counted in whole.COUNTED_SHELVES.get(shelf, {}).values():
        for number in (1, 2, 5):
            found |= _between(counted.into(number, language))
    return found


def _between(sentence: str) -> set[str]:
    texts = (text for text, *_ in string.Formatter().parse(sentence))
    bare = (text.strip(" .,;:()%\u00a0") for text in texts)
    return {re.sub(r"\s+", " ", it) for it in bare if len(it) > 2}


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_paper_speaks_its_language(
    language: Language, text_of: TextOf, running_text_of: TextOf
) -> None:
    """Once as the lines lie on the paper, once as they are read column by column."""
    pdf = print_certificate(languages.in_language(language))

    [lying], [read] = text_of(pdf), running_text_of(pdf)

    for said in SAYS[language]:
        assert said in lying or said in read, said


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("made", MADE)
def test_no_english_sentence_is_left(
    language: Language, made: Callable[[Language], CertificateData]
) -> None:
    text, in_english = words_on(made(language)), words_on(made("en"))

    english = {it for shelf in SHELVES for it in pieces(shelf, "en")}
    own = {it for shelf in SHELVES for it in pieces(shelf, language)}
    alike = {it for it in english if any(_has(piece, it) for piece in own)}
    left = {it for it in english - alike if _has(text, it)}

    assert left == set()
    assert len([it for it in english - alike if _has(in_english, it)]) > 40


def _has(text: str, piece: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(piece)}(?!\w)", text) is not None


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("made", [languages.in_language, languages.not_all_met])
def test_numbers_and_verdicts_are_equal_in_every_language(
    language: Language, made: Callable[[Language], CertificateData]
) -> None:
    here, english = made(language), made("en")

    assert here.finding == english.finding
    assert _cells(here) == _cells(english)
    assert [row.verdict for row in here.rows] == [row.verdict for row in english.rows]


def _cells(data: CertificateData) -> list[tuple[str, ...]]:
    """Figures with one decimal mark, the kinds of cells and verdicts; no words."""
    table = table_of(data.rows, Words.of(data.language))
    return [
        (row.verdict_kind, *(f"{it.kind} {_plain(it.text)}" for it in row.cells))
        for group in table.groups
        for row in group.rows
    ]


def _plain(text: str) -> str:
    return text.replace(",", ".") if re.search(r"\d", text) else ""


@pytest.mark.parametrize("language", OTHERS)
def test_no_figure_of_the_table_has_a_point_or_is_grouped(language: Language) -> None:
    table = table_of(
        (replace(samples.ROWS[3], result="1234.5", lower="1000"),), Words.of(language)
    )
    [row] = table.groups[0].rows

    assert [cell.text for cell in row.cells] == ["1000", "5,0", "1234,5"]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("made", MADE)
def test_the_file_says_which_language_it_speaks(
    language: Language, made: Callable[[Language], CertificateData]
) -> None:
    data = made(language)
    pdf = print_preview(data) if data.is_preview else print_certificate(data)

    with pikepdf.open(io.BytesIO(pdf)) as opened:
        assert str(opened.Root.Lang) == language


@pytest.mark.parametrize("language", LANGUAGES)
def test_data_in_each_language_are_read_back_as_they_were_written(
    language: Language,
) -> None:
    data = languages.not_all_met(language)

    assert CertificateData.from_json(data.to_json()) == data


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_finding_that_is_not_all_met_is_said_in_the_language(
    language: Language,
) -> None:
    told = {
        "en": "One of five requirements not met.",
        "de": "Eine von fünf Anforderungen nicht erfüllt.",
        "fr": "Une exigence sur cinq non satisfaite.",
        "es": "Uno de cinco requisitos no cumplido.",
        "pl": "1 z 5 wymagań niespełnione.",
    }
    text = re.sub(r"\s+", " ", words_on(languages.not_all_met(language)))

    assert told[language].removesuffix(".") in text


def test_the_statement_names_the_line_that_is_compared_otherwise() -> None:
    [french, *_] = statement_of(languages.not_all_met("fr"), Words.of("fr"))

    assert "Ligne 6\u00a0: Chaque valeur rapportée est comparée" in french
    assert "Une valeur précédée de > ou de <" in french


@pytest.mark.parametrize("language", LANGUAGES)
def test_each_characteristic_of_the_book_has_a_name_in_the_language(
    language: Language,
) -> None:
    unnamed = [
        code
        for code in languages.CHARACTERISTICS
        if not languages.named(code, language)[0].strip()
    ]
    bare = [
        code
        for code, row in languages.CHARACTERISTICS.items()
        if bool(row.get("conditions")) != bool(languages.named(code, language)[1])
        and language not in {"en", "de"}
    ]

    assert (unnamed, bare) == ([], [])


@pytest.mark.parametrize("language", OTHERS)
def test_no_name_of_the_book_has_a_decimal_point(language: Language) -> None:
    names = [languages.named(code, language) for code in languages.CHARACTERISTICS]

    assert [it for it in names if re.search(r"\d\.\d", " ".join(it))] == []


@pytest.mark.parametrize("name", ["InterText-Regular", "InterText-SemiBold", "InterText-Bold"])  # fmt: skip
def test_the_fonts_have_every_sign_of_the_catalogue_and_of_the_book(name: str) -> None:
    signs = TTFont(ASSETS / "fonts" / f"{name}.ttf").getBestCmap()

    assert _lacking(signs, "".join(_everything())) == set()


def test_the_font_of_titles_has_every_sign_of_the_languages() -> None:
    signs = TTFont(ASSETS / "fonts" / "InterDisplay-SemiBold.ttf").getBestCmap()
    titles = [Words.of(it)[key] for it in LANGUAGES for key in ("title", "preview")]

    assert (
        _lacking(signs, "".join(titles) + "ąćęłńóśźżĄĆĘŁŃÓŚŹŻñÑœŒçéèêàù«»„”“’") == set()
    )


def _everything() -> list[str]:
    said = [
        it.into(language)
        for shelf in whole.SHELVES.values()
        for it in shelf.values()
        for language in LANGUAGES
    ]
    names = [
        part
        for code in languages.CHARACTERISTICS
        for language in LANGUAGES
        for part in languages.named(code, language)
    ]
    return [*said, *names, "ąćęłńóśźżñœç«»„”“‚‘’¿¡"]


def _lacking(signs: dict[int, str], text: str) -> set[str]:
    """A soft hyphen is no sign: it is drawn as a hyphen where the line breaks."""
    return {sign for sign in text if ord(sign) not in signs} - {"\u00ad"}
