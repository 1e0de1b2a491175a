// Compares a chosen or dropped file with the fingerprint of the one that was issued. The file stays in the browser.
"use strict";
(() => {
  const drop = document.getElementById("drop");
  if (!drop) return;
  const file = document.getElementById("file");
  const told = document.getElementById("compared");
  const words = drop.dataset;
  let latest = 0;

  function tell(text, tone) {
    told.textContent = text;
    told.className = tone;
  }

  async function compare(chosen) {
    const turn = ++latest;
    tell(words.comparing, "note");
    try {
      const digest = await crypto.subtle.digest("SHA-256", await chosen.arrayBuffer());
      if (turn !== latest) return;
      const found = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
      const same = found === words.sha256;
      tell(same ? words.same : words.other, same ? "good" : "bad");
    } catch {
      if (turn === latest) tell(words.unable, "care");
    }
  }

  file.addEventListener("change", () => file.files.length && compare(file.files[0]));
  for (const kind of ["dragover", "dragleave", "drop"]) {
    drop.addEventListener(kind, (event) => {
      event.preventDefault();
      drop.classList.toggle("over", kind === "dragover");
      if (kind === "drop" && event.dataTransfer.files.length) compare(event.dataTransfer.files[0]);
    });
  }
  drop.hidden = false;
  if (!(window.crypto && crypto.subtle)) tell(words.unable, "care");
})();
