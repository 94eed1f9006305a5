// Gives every answer of every item to the player, and tells what it made of them. Right answers are typed, or chosen, as a student does.
const wait = (time) => new Promise((done) => setTimeout(done, time));

const enter = (item, place, text) => {
  const interaction = item.querySelector(`[response-identifier="${place}"]`);
  const choice = interaction.querySelector(`qti-simple-choice[identifier="${text}"]`);
  if (choice) {
    choice.click();
    return;
  }
  const input = interaction.shadowRoot.querySelector("input");
  input.value = text;
  for (const kind of ["input", "keyup", "change"]) {
    input.dispatchEvent(new Event(kind, { bubbles: true, composed: true }));
  }
};

const told = async (item) => {
  item.processResponse();
  await item.updateComplete;
  await wait(5);
  const value = (name) => item.variables.find((v) => v.identifier === name).value;
  const shown = [...item.querySelectorAll("qti-modal-feedback")].filter(
    (f) => f.shadowRoot.querySelector("dialog").open && f.textContent.trim().length > 0,
  );
  return { score: value("SCORE"), most: value("MAXSCORE"), shown: shown.map((f) => f.identifier) };
};

const played = async ({ xml, typed, answers }) => {
  const frame = document.createElement("qti-item");
  const container = document.createElement("item-container");
  container.itemXML = xml;
  frame.append(container);
  document.body.append(frame);
  let item = null;
  for (let i = 0; i < 400 && !item?.variables?.length; i++) {
    await wait(5);
    item = (container.shadowRoot ?? container).querySelector("qti-assessment-item");
  }
  await wait(20);
  const results = [];
  for (const [place, text] of Object.entries(typed)) {
    enter(item, place, text);
  }
  await wait(10);
  results.push(await told(item));
  for (const answer of answers) {
    for (const place of Object.keys(typed)) {
      item.updateResponseVariable(place, answer[place] ?? null);
    }
    results.push(await told(item));
  }
  frame.remove();
  return { identifier: item.identifier, results };
};

const play = async () => {
  const all = [];
  try {
    for (const item of items) {
      all.push(await played(item));
    }
  } catch (fault) {
    all.push({ fault: `${fault} ${fault.stack}` });
  }
  document.getElementById("told").textContent = JSON.stringify(all);
};

play();
