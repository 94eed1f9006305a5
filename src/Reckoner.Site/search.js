// Finds sections that hold every word, those first that have them in their heading. Nothing is sent anywhere.
const root = document.currentScript.dataset.root;
const most = 12;

function found(asked) {
  const words = asked.toLowerCase().split(/\s+/).filter((w) => w.length > 1);
  if (words.length === 0) return [];
  return siteIndex
    .map((entry) => {
      const heading = `${entry.heading} ${entry.page}`.toLowerCase();
      const text = entry.words.toLowerCase();
      if (!words.every((w) => heading.includes(w) || text.includes(w))) return null;
      return { entry, rank: words.filter((w) => heading.includes(w)).length, first: text.indexOf(words[0]) };
    })
    .filter((e) => e !== null)
    .sort((a, b) => b.rank - a.rank)
    .slice(0, most);
}

function shown({ entry, first }) {
  const item = document.createElement("li");
  const link = document.createElement("a");
  link.href = root + entry.at;
  link.textContent = entry.heading === entry.page ? entry.heading : `${entry.page}: ${entry.heading}`;
  const around = document.createElement("span");
  around.textContent = first < 0 ? "" : entry.words.slice(Math.max(0, first - 40), first + 100);
  item.append(link, document.createElement("br"), around);
  return item;
}

const field = document.getElementById("search");
const place = document.getElementById("found");
field.addEventListener("input", () => {
  const list = document.createElement("ul");
  list.append(...found(field.value).map(shown));
  place.replaceChildren(list);
  place.hidden = list.children.length === 0;
});
