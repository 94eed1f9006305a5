// What was written goes into the page's own fields and beside them as JSON; then the page saves itself as a file.
const places = [...document.querySelectorAll("input, textarea, select")];
const words = JSON.parse(document.getElementById("words").textContent);

function keep() {
  const written = { sheet: document.body.dataset.sheet, answers: {} };
  for (const place of places) {
    if (place.value !== "") {
      written.answers[place.name] = place.value;
    }
    if (place.localName === "textarea") {
      place.textContent = place.value;
    } else if (place.localName === "select") {
      for (const way of place.options) {
        way.toggleAttribute("selected", way.selected);
      }
    } else {
      place.setAttribute("value", place.value);
    }
  }
  document.getElementById("written").textContent = JSON.stringify(written).replaceAll("<", "\\u003c");
}

document.getElementById("save").addEventListener("click", () => {
  keep();
  const said = document.getElementById("said");
  said.textContent = "";
  const file = new Blob(["<!DOCTYPE html>\n", document.documentElement.outerHTML, "\n"], { type: "text/html" });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `${document.body.dataset.sheet}.html`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
  said.textContent = words.saved.replace("{file}", link.download);
});
