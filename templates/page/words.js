// What the page was made from, and its words.

const data = JSON.parse(byId("data").textContent);

function say(key, fillings) {
  let text = Object.hasOwn(data.words, key) ? data.words[key] : key;
  for (const [name, value] of Object.entries(fillings || {})) text = text.split("{" + name + "}").join(String(value));
  return text;
}

const passWord = (pass) => say("pass." + pass);

function speak(root) {
  for (const one of root.querySelectorAll("[data-word]")) one.textContent = say(one.dataset.word);
  for (const one of root.querySelectorAll("[data-label]")) one.setAttribute("aria-label", say(one.dataset.label));
}
