// The page of what is on this device: each with its words, its state and what may be done about it.
let thrown = 0;  // the order of the one whose first tap on 'throw away' was made
function showDevice(entries) {
  const list = document.querySelector('#device');
  const rows = entries.map((entry) => {
    const row = document.createElement('li');
    const states = { here: 'on this device only', photo: 'in the book, the photo still to go' };
    const line = document.createElement('p');
    line.textContent = `${entry.words}, ${sinceWords(entry.held)}: ${states[entry.state] || entry.state}` +
      (entry.why ? `: ${entry.why}` : '') + '.';
    const choices = document.createElement('div');
    choices.className = 'choices';
    const button = (words, done) => {
      const one = document.createElement('button');
      one.type = 'button';
      one.textContent = words;
      one.addEventListener('click', done);
      choices.append(one);
    };
    if (entry.state === 'here' || entry.state === 'refused')
      button('Change it', () => {
        sessionStorage.setItem('change', entry.order);
        location.href = entry.from;
      });
    if (entry.state === 'photo refused')
      button('Send the photo again', async () => {
        await changeHeld(entry.order, { state: 'photo', why: '' });
        send();
      });
    button(thrown === entry.order ? 'Throw it away: sure' : 'Throw it away', async () => {
      if (thrown !== entry.order) {
        thrown = entry.order;
        return showDevice(entries);
      }
      thrown = 0;
      await letGo(entry, false);
      told();
      return showHeld();
    });
    row.append(line, choices);
    return row;
  });
  list.replaceChildren(...rows);
  document.querySelector('#device-none').hidden = entries.length > 0;
  askClock();
}

// Which clock is right, asked once for as long as they differ as they do: by the minute, since each contact finds them a
// little otherwise, and what is under a finger must not be made anew.
function askClock() {
  const place = document.querySelector('#device-clock');
  place.hidden = !doubtful;
  const minutes = doubtful && String(Math.round(doubtful.ahead / 60000));
  if (!doubtful || place.dataset.asked === minutes) return;
  place.dataset.asked = minutes;
  const question = document.createElement('p');
  const asked = doubtful;
  const here = new Date(Date.now() - ahead);
  question.textContent = `It is ${dayHere(here)} by the clock of the house, and ` + (asked.elsewhere
    ? `${dayHere(new Date(here.getTime() + asked.ahead))} by that of the device that they were kept on. Which is right?`
    : `${dayHere()} by that of this device. Which is right?`);
  const choices = document.createElement('p');
  choices.className = 'choices';
  for (const [by, words] of [['house', 'The house is right'], ['device', asked.elsewhere ? 'That device is right' : 'This device is right']]) {
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = words;
    button.addEventListener('click', async () => {
      await settleClock(asked, by);
      await send();
    });
    choices.append(button);
  }
  place.replaceChildren(question, choices);
}

async function settleClock({ ahead: off }, by) {
  const others = (await note('clocks settled') || []).filter((each) => Math.abs(each.ahead - off) > 3600000);
  await setNote('clocks settled', [...others.slice(-7), { ahead: off, by }]);
}

// What is kept here as a file, photos included, for a device that reaches the house where this one does not any more.
function textOf(bytes) {
  let text = '';
  for (const byte of new Uint8Array(bytes)) text += String.fromCharCode(byte);
  return btoa(text);
}
async function saveAsFile() {
  const off = await note('ahead');
  const settled = await note('clocks settled');
  const entries = [];
  for (const entry of await heldEntries()) {
    const photo = entry.photo ? await read('photo', (photos) => photos.get(entry.id)) : null;
    const { id, held, form, words, from, dayWas } = entry;
    entries.push({ id, held, form, words, from, dayWas, ahead: entry.ahead ?? off ?? 0,
      photo: photo ? { type: photo.type, bytes: textOf(photo.bytes) } : null });
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([JSON.stringify({ outbox: 1, settled, entries })], { type: 'application/json' }));
  link.download = `outbox-${dayHere()}.json`;
  document.body.append(link);
  link.click();
  link.remove();
}
// One entry of a file as it is held here; throws where it is none. Its clock is that of the device that kept it.
function readKept(entry) {
  const fits = entry && typeof entry === 'object' && /^[0-9a-f]{32}$/.test(entry.id) && typeof entry.form === 'string' &&
    new URLSearchParams(entry.form).get('do') && Number.isFinite(entry.held);
  if (!fits) throw new Error('it is no file of kept entries');
  const { id, held, form, dayWas } = entry;
  let photo = null;
  if (entry.photo)
    try {
      photo = { id, type: String(entry.photo.type), bytes: Uint8Array.from(atob(entry.photo.bytes), (each) => each.charCodeAt(0)).buffer };
    } catch {
      throw new Error(`the photo of ${String(entry.words)} is damaged`);
    }
  return { photo, entry: { id, held, form, words: String(entry.words), from: /^\/(?!\/)/.test(entry.from) ? entry.from : '/receipt',
    ...(typeof dayWas === 'string' && { dayWas }), ahead: Number(entry.ahead) || 0, state: 'here', photo: Boolean(photo) } };
}
// Taken into this device's own outbox, all of them or none, under the ids that they have: one that is in the book already
// stays one.
async function takeFile(file) {
  const { outbox, entries, settled } = JSON.parse(await file.text()) || {};
  if (outbox !== 1 || !Array.isArray(entries)) throw new Error('it is no file of kept entries');
  const known = new Set((await heldEntries()).map((entry) => entry.id));
  const all = entries.map(readKept).filter(({ entry }) => !known.has(entry.id) && known.add(entry.id));
  for (const each of Array.isArray(settled) ? settled : [])
    if (each && Number.isFinite(each.ahead) && /^(house|device)$/.test(each.by)) await settleClock(each, each.by);
  if (all.length) await holdAll(all);
  send();
  return all.length;
}
document.querySelector('#device-save').addEventListener('click', saveAsFile);
document.querySelector('#device-file').addEventListener('change', async (event) => {
  const line = document.querySelector('#device-taken');
  try {
    line.textContent = `${await takeFile(event.target.files[0])} taken in.`;
  } catch (wrong) {
    line.textContent = `Nothing was taken in: ${wrong instanceof SyntaxError ? 'it is no file of kept entries' : wrong.message}.`;
  }
  event.target.value = '';
});
window.showDevice = showDevice;
showHeld();
