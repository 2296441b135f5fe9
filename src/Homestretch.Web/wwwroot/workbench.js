// Sends the what-if form while a person types, so that the figures move at once. Without this script its button does the same.
(() => {
  "use strict";

  const WAIT = 60;
  let timer = 0;
  let sent = null;

  const address = (form) => {
    const url = new URL(form.action);
    url.search = new URLSearchParams(new FormData(form)).toString();
    return url.href;
  };

  // A date or number that is still being typed has no value yet; the server is asked once it has one.
  const unfinished = (form) =>
    [...form.elements].some((control) => control.validity?.badInput || (control.name && control.type !== "radio" && control.value === ""));

  const values = (form) => new Map(
    [...form.elements].filter((c) => c.id && "value" in c).map((c) => [c.id, c.value]));

  const send = (form) => {
    const target = address(form);
    if (unfinished(form) || target === location.href) {
      return;
    }
    sent = target;
    // Replaces the history entry: one step back leaves the page rather than undoing a single key press.
    Blazor.navigateTo(target, { replaceHistoryEntry: true });
  };

  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (!form?.hasAttribute("data-live")) {
      return;
    }
    clearTimeout(timer);
    timer = setTimeout(() => send(form), WAIT);
  });

  document.addEventListener("submit", (event) => {
    if (event.target.hasAttribute?.("data-live") && !unfinished(event.target)) {
      event.preventDefault();
      clearTimeout(timer);
      send(event.target);
    }
  }, true);

  // An answer may arrive while the person types on; what they typed since stays.
  let typed = new Map();
  document.addEventListener("input", (event) => {
    const form = event.target.form;
    if (form?.hasAttribute("data-live")) {
      typed = values(form);
    }
  });

  const settle = () => {
    const form = document.querySelector("form[data-live]");
    if (!form || sent === null) {
      return;
    }
    const focused = document.activeElement;
    if (focused && form.contains(focused) && typed.has(focused.id) && focused.value !== typed.get(focused.id)) {
      focused.value = typed.get(focused.id);
    }
    if (address(form) === location.href) {
      sent = null;
    }
  };

  Blazor.addEventListener("enhancedload", settle);
})();
