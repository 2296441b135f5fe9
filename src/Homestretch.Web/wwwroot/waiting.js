// Looks again while the server is still working on something. Without this script a link does the same.
(() => {
  "use strict";

  const EVERY = 1000;
  let timer = 0;

  const look = () => {
    clearTimeout(timer);
    if (document.querySelector("[data-waiting]")) {
      timer = setTimeout(() => Blazor.navigateTo(location.href, { replaceHistoryEntry: true }), EVERY);
    }
  };

  Blazor.addEventListener("enhancedload", look);
  look();
})();
