"use strict";
(function () {
  var root = document.documentElement;
  root.classList.add("js");
  function all(query) {
    return Array.prototype.slice.call(document.querySelectorAll(query));
  }
  function light(ref) {
    var again = ref === root.getAttribute("data-lit");
    all(".lit").forEach(function (each) { each.classList.remove("lit"); });
    root.removeAttribute("data-lit");
    if (again) { return; }
    root.setAttribute("data-lit", ref);
    all("[data-ref]").forEach(function (each) {
      if (each.getAttribute("data-ref") === ref) { each.classList.add("lit"); }
    });
  }
  function touched(event) {
    if (event.target.closest("a, input")) { return; }
    var found = event.target.closest("tr[data-ref], .spot, h2");
    var marked = found ? found.closest("[data-ref]") : null;
    if (marked) { light(marked.getAttribute("data-ref")); }
  }
  document.addEventListener("click", touched);
  document.addEventListener("keydown", function (event) {
    if (event.key !== "Enter") { return; }
    if (event.target.closest(".spot")) { touched(event); }
  });
})();
