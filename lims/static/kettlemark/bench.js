// The walk of the bench: Enter saves and goes on, Esc restores, nothing typed is lost.
"use strict";

const boxes = () => [...document.querySelectorAll("[data-box]")].filter((box) => box.checkVisibility());
const keptOf = (box) => document.getElementById(`${box.id}-kept`);
const isBox = (it) => it instanceof HTMLElement && it.matches("[data-box]");
const tell = (box, name) => keptOf(box).replaceChildren(document.getElementById(name).content.cloneNode(true));

function step(box, by) {
  const all = boxes();
  const next = all[all.indexOf(box) + by];
  if (!next) return box.blur(); // leaving the last box saves it
  next.focus();
  if (next.select) next.select();
}

function restore(box) {
  box.value = box.dataset.saved;
  box.removeAttribute("aria-invalid");
  box.focus();
}

document.addEventListener("keydown", (event) => {
  const box = event.target;
  if (event.key === "Enter" && box.closest?.(".why") && box.matches("input, select")) {
    event.preventDefault();
    box.closest(".why").querySelector("[data-send]").click();
  }
  if (!isBox(box) || event.isComposing) return;
  if (event.key === "Enter") {
    event.preventDefault();
    if (box.matches("select")) choose(box);
    step(box, event.shiftKey ? -1 : 1);
  } else if (event.key === "Escape") restore(box);
});

// Arrows and letters only walk through a list: what they come by is saved when it is chosen, by Enter or by leaving.
function choose(box) {
  delete box.dataset.keyed;
  if (box.value !== box.dataset.saved) box.dispatchEvent(new Event("change", { bubbles: true }));
}

let byKeys = false;
document.addEventListener("keydown", () => (byKeys = true), true);
document.addEventListener("pointerdown", () => (byKeys = false), true);
document.addEventListener("change", (event) => {
  if (!byKeys || !event.isTrusted || !isBox(event.target) || !event.target.matches("select")) return;
  event.target.dataset.keyed = "1";
  event.stopPropagation();
}, true);
document.addEventListener("focusout", (event) => isBox(event.target) && leaveTyped(event.target));

document.addEventListener("click", (event) => {
  const id = event.target.closest?.("[data-restore]")?.dataset.restore;
  if (!id) return;
  restore(document.getElementById(id));
  keptOf(document.getElementById(id)).replaceChildren();
});

// The button of a correction is gone when its answer is here; the place of the answer stays.
const boxOf = (kept) => (kept?.isConnected && kept.id.endsWith("-kept") ? document.getElementById(kept.id.replace(/-kept$/, "")) : null);

document.addEventListener("htmx:beforeRequest", (event) => isBox(event.target) && tell(event.target, "saving"));

document.addEventListener("htmx:afterRequest", (event) => {
  const box = boxOf(event.detail.target);
  if (!isBox(box)) return;
  const status = event.detail.xhr.status;
  const name = box.name.replace(/-text$/, "");
  box.parentElement.classList.toggle("unsaved", status !== 200 && status !== 422);
  box.toggleAttribute("aria-invalid", status === 422);
  if (status === 422) box.setAttribute("aria-invalid", "true");
  if (status === 200) box.dataset.saved = event.detail.requestConfig.parameters[`${name}-text`] ?? box.value;
  else if (status !== 422) tell(box, "unsaved");
  const now = document.activeElement;
  const sentBy = event.detail.requestConfig.elt;
  if (status === 200 && sentBy !== box && (now === document.body || now === sentBy)) box.focus(); // a correction is made: on from its box
  const nothingTyped = !isBox(now) || now.value === now.dataset.saved || now.matches("select");
  if (status !== 422 || now === box || !nothingTyped) return;
  ((sentBy !== box && keptOf(box).querySelector(".why select")) || box).focus();
});

// A set at fault is looked at before the next test: who went on and typed nothing there comes back to it.
document.addEventListener("bench:stay", ({ target: box }) => {
  const now = document.activeElement;
  const wentOn = isBox(now) ? now.closest(".leaf") !== box.closest(".leaf") && !now.dataset.keyed && untouched(now) : now === document.body;
  if (!isBox(box) || !wentOn) return;
  box.focus();
  box.select?.();
});
const untouched = (box) => (box.matches("select") ? box.value === (box.querySelector("[selected]")?.value ?? "") : box.value === box.dataset.saved);

// What stands beside a box that was refused, or is not sent yet, is not taken away by the answer to another; nor is a set with such a box.
const isWaiting = (box) => isBox(box) && (box.ariaInvalid === "true" || box.closest(".unsaved"));
document.addEventListener("htmx:oobBeforeSwap", ({ detail }) => {
  const waits = [boxOf(detail.target), ...detail.target.querySelectorAll("[data-box]")].some(isWaiting);
  const isInUse = detail.target.id.startsWith("sets-") && detail.target.contains(document.activeElement);
  if (waits || isInUse) detail.shouldSwap = false;
});

// The next set is asked for: who typed nothing elsewhere goes on in its first box.
document.addEventListener("bench:next-set", ({ detail }) => {
  const now = document.activeElement;
  const set = document.getElementById(`set-${detail.value}`);
  const first = [...set.querySelectorAll("[data-box]")].find((box) => box.dataset.saved === "");
  if (now === document.body || (isBox(now) && !now.dataset.keyed && untouched(now))) first?.focus();
});

// With the script every box is saved as it is left; the button of a set is for those without it.
if (window.htmx) document.documentElement.classList.add("saves");

// What is to be typed again is typed into an empty box.
document.addEventListener("bench:again", (event) => {
  event.target.value = "";
});

const unsaved = () => [...document.querySelectorAll(".unsaved > [data-box]")];
window.addEventListener("online", () => unsaved().forEach((box) => box.dispatchEvent(new Event("change", { bubbles: true }))));
window.addEventListener("beforeunload", (event) => unsaved().length && event.preventDefault());

// The keypad for gloves types into the box that has the focus; pressing a key never takes it away.
const gloves = document.getElementById("gloves");
const narrow = matchMedia("(max-width: 720px)");
const press = (key) => document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));

function echo() {
  const box = document.activeElement;
  if (!gloves || !isBox(box)) return;
  document.querySelector("[data-echo]").textContent = box.value;
  document.querySelector("[data-echo-label]").textContent = box.labels[0]?.textContent ?? box.ariaLabel;
  if (gloves.checked && narrow.matches) box.scrollIntoView({ block: "nearest" });
}

// What a script has set fires no change of its own when the box is left.
function leaveTyped(box) {
  if (box.dataset.keyed && box.value !== box.dataset.saved) box.dispatchEvent(new Event("change", { bubbles: true }));
  delete box.dataset.keyed;
}

function typeKey(button) {
  const box = document.activeElement;
  const { key, act } = button.dataset;
  if (act === "away") return gloves.click();
  if (!isBox(box)) return boxes()[0]?.focus();
  if (act === "undo") press("Escape");
  else if (act === "next") press("Enter");
  else if (!box.matches("select")) {
    const keep = act ? Math.max(box.selectionStart - (box.selectionStart === box.selectionEnd), 0) : box.selectionStart;
    box.setRangeText(key ?? "", keep, box.selectionEnd, "end");
    box.dataset.keyed = "1";
  }
  echo();
}

if (gloves) {
  const pad = document.querySelector(".keypad");
  pad.addEventListener("pointerdown", (event) => event.target.closest("button") && event.preventDefault());
  pad.addEventListener("click", (event) => event.target.closest("button") && typeKey(event.target.closest("button")));
  gloves.checked = !narrow.matches && localStorage.getItem("gloves") === "on"; // on a phone it would hide the page that was just opened
  gloves.addEventListener("change", () => narrow.matches || localStorage.setItem("gloves", gloves.checked ? "on" : "off"));
  document.addEventListener("focusin", echo);
  document.addEventListener("input", echo);
}
