// The button that shows what is typed into a password box. Without script it stays hidden.
"use strict";
for (const button of document.querySelectorAll("[data-shows]")) {
  const boxes = button.dataset.shows.split(" ").map((id) => document.getElementById(id));
  button.hidden = false;
  button.addEventListener("click", () => {
    const shows = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(shows));
    for (const box of boxes) box.type = shows ? "text" : "password";
  });
  button.form.addEventListener("submit", () => boxes.forEach((box) => (box.type = "password")));
}
