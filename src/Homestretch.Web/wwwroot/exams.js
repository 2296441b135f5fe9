// Checks an exam's form while a person types: the server says what is wrong and what it adds up to. Without this script a button does the same.
(() => {
  "use strict";

  const WAIT = 350;
  let timer = 0;
  let turn = 0;

  const region = (form) => form.querySelector("[data-checked]");

  // Each problem stands in the list and at its field.
  const placeProblems = (form) => {
    const texts = new Map();
    for (const link of region(form).querySelectorAll("[data-field]")) {
      const field = link.dataset.field;
      texts.set(field, texts.has(field) ? texts.get(field) + " " + link.textContent : link.textContent);
    }
    for (const place of form.querySelectorAll("[data-problem]")) {
      const text = texts.get(place.dataset.problem) ?? "";
      if (place.textContent === text) {
        continue;
      }
      place.textContent = text;
      const control = document.getElementById(place.dataset.problem);
      if (control?.matches("input, select, textarea")) {
        control.closest(".field")?.classList.toggle("bad", text !== "");
        text === "" ? control.removeAttribute("aria-invalid") : control.setAttribute("aria-invalid", "true");
      }
    }
  };

  const check = async (form) => {
    const mine = ++turn;
    try {
      const answer = await fetch(form.dataset.check, { method: "POST", body: new FormData(form), credentials: "same-origin" });
      if (!answer.ok || mine !== turn || !form.isConnected) {
        return;
      }
      const html = await answer.text();
      if (mine === turn) {
        region(form).innerHTML = html;
        placeProblems(form);
      }
    } catch {
      // The connection broke; the next key press or the button asks again.
    }
  };

  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (form?.hasAttribute("data-check")) {
      clearTimeout(timer);
      timer = setTimeout(() => check(form), WAIT);
    }
  });

  document.addEventListener("submit", (event) => {
    if (event.target.hasAttribute?.("data-check")) {
      clearTimeout(timer);
      turn++;
    }
  }, true);

  // A problem in the list leads to its field, without leaving what was typed.
  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("[data-checked] a");
    if (!link) {
      return;
    }
    const text = document.getElementById("yaml");
    const control = link.dataset.field ? document.getElementById(link.dataset.field) : text;
    if (!control) {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    control.closest("details")?.setAttribute("open", "");
    control.focus();
    if (control === text && link.dataset.line) {
      const lines = text.value.split("\n");
      const line = Math.min(Number(link.dataset.line), lines.length) - 1;
      const start = lines.slice(0, line).reduce((sum, l) => sum + l.length + 1, 0);
      text.setSelectionRange(start, start + lines[line].length);
      text.scrollTop = Math.max(0, line - 5) * (text.scrollHeight / lines.length);
    }
  }, true);

  Blazor.addEventListener("enhancedload", () => document.querySelector(".exam-form [autofocus]")?.focus());
})();
