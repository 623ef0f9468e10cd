// A page works without this: it lists only the chips that the chosen board
// takes, leaves empty fields out of addresses, and writes this site's own
// address into the snippet.
"use strict";
for (const form of document.querySelectorAll("form")) {
  form.addEventListener("formdata", (event) => {
    for (const [name, value] of [...event.formData]) {
      if (value === "") event.formData.delete(name);
    }
  });
}
const board = document.getElementById("f-board");
const chip = document.getElementById("f-chip");
const every = document.getElementById("every-chip");
if (board && chip && every) {
  board.addEventListener("change", () => {
    const socket = board.selectedOptions[0]?.dataset.socket;
    const chosen = chip.value;
    chip.replaceChildren(every.content.cloneNode(true));
    for (const option of chip.querySelectorAll("option")) {
      if (socket && option.value && option.dataset.socket !== socket) option.remove();
    }
    for (const group of chip.querySelectorAll("optgroup")) {
      if (!group.children.length) group.remove();
    }
    chip.value = chosen;
    if (chip.selectedIndex < 0) chip.selectedIndex = 0;
  });
}
for (const code of document.querySelectorAll(".snippet code")) {
  code.textContent = code.textContent.replace("https://YOUR-HOST", location.origin);
}
