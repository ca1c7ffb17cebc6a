// The outbox: what is kept here is on this device, durably, before anything is sent and before the form is emptied,
// and leaves it only when the house has said that it has it. Sent in the order in which it was kept; one that the
// house refused holds back only what names the same car. The same id sent twice is one entry in the book, so that
// sending again is never wrong.
let reached = '';        // why nothing goes at the moment, in words; empty: it goes
let sendingNow = null;   // the promise of the round that runs
let pause = 0;           // milliseconds until the next try by itself
let pauseClock = 0;
let interactive = '';    // the id of the one that a person waits for: asked by its form, not by a round

let ahead = 0;           // how far this device's clock is before the house's, in milliseconds, as of the last contact
let houseDay = '';       // the day on which the house was then
let doubtful = null;     // { ahead, elsewhere }: of which clock, and of which device, a person has to say whether it is right

const carOf = (form) => new URLSearchParams(form).get('vehicle') || '';
const tabs = 'BroadcastChannel' in window ? new BroadcastChannel('held') : null;
if (tabs) tabs.onmessage = () => showHeld();
const told = () => tabs && tabs.postMessage('changed');

// On this device once this resolves. `instead`: the order of a refused one that it takes the place of.
async function hold(id, form, words, photo, from, instead) {
  const bytes = photo ? await photo.arrayBuffer() : null;
  await holdAll([{ entry: { id, held: Date.now(), form, words, from, state: 'here', photo: Boolean(photo) },
    photo: photo && { id, bytes, type: photo.type } }], instead);
}
async function holdAll(all, instead) {
  await write(['entry', 'photo'], (change) => {
    const entries = change.objectStore('entry');
    if (instead) entries.delete(instead);
    for (const { entry, photo } of all) {
      entries.add(entry);
      if (photo) change.objectStore('photo').put(photo);
    }
  });
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist().catch(() => {});
  told();
}

// The hours of a clock and its end are one: a second tap, or another tab, finds no clock and adds nothing.
async function holdHours(running, entry) {
  await write(['entry', 'note'], (change) => {
    const notes = change.objectStore('note');
    const asked = notes.get('clock');
    asked.onsuccess = () => {
      if (!asked.result || asked.result.since !== running.since) return;
      change.objectStore('entry').add(entry);
      notes.delete('clock');
    };
  });
  told();
}

// One request of the outbox; throws where nobody answers in time. A round takes as long as its photos: who answers is asked
// for its proof again meanwhile.
async function put(path, body, type, seconds) {
  await houseProves();
  const stop = new AbortController();
  const clock = setTimeout(() => stop.abort(), seconds * 1000);
  try {
    return await fetch(path, {
      method: 'PUT', body, signal: stop.signal, cache: 'no-store', credentials: 'same-origin', redirect: 'error',
      headers: { 'Content-Type': type, Accept: 'application/json' },
    });
  } finally {
    clearTimeout(clock);
  }
}
async function messageOf(answer) {
  try {
    return await answer.json();
  } catch {
    return {};
  }
}
class NotNow extends Error {}  // everything stays as it is and is tried again
// A failed fetch is a TypeError, one that took too long an AbortError; anything else is a mistake of ours, and is shown.
function whyNot(wrong) {
  if (wrong instanceof NotNow) return wrong.message;
  if (!(wrong instanceof TypeError) && wrong.name !== 'AbortError') console.error(wrong);
  return 'the house is not reached';
}

function orNotNow(answer) {
  if (answer.status === 401) throw new NotNow('this device has to be paired again');
  if (answer.status === 429 || answer.status >= 500) throw new NotNow('the house is busy');
  return answer;
}

// The entry, then its photo. Gives the state in which it was left, and what the house said.
async function sendOne(entry) {
  let said = {};
  if (entry.state === 'here') {
    const answer = orNotNow(await put('/entry/' + entry.id, entry.form, 'application/x-www-form-urlencoded', 20));
    said = await messageOf(answer);
    if (!answer.ok) {
      const why = said.message || `the house answered ${answer.status}`;
      await changeHeld(entry.order, { state: 'refused', why });
      return { state: 'refused', why };
    }
    await changeHeld(entry.order, { state: 'photo', entry: said.entry });
  }
  const photo = entry.photo ? await read('photo', (photos) => photos.get(entry.id)) : null;
  if (photo) {
    const answer = orNotNow(await put(`/entry/${entry.id}/photo`, photo.bytes, photo.type, 120));
    if (!answer.ok) {
      const why = (await messageOf(answer)).message || `the house answered ${answer.status} to the photo`;
      await changeHeld(entry.order, { state: 'photo refused', why });
      return { state: 'photo refused', why };
    }
  }
  await letGo(entry, true);
  return { state: 'in the book', entry: said.entry, message: said.message };
}

// Whether the house is there and this device is paired; and, some times a day, whether the book still has what was
// sent: one that was restored from an older copy gets it again.
async function askKnown() {
  const last = await note('known asked') || 0;
  const sent = Date.now() - last > 6 * 3600000 ? await read('sent', (all) => all.getAll()) : [];
  const old = sent.filter((each) => Date.now() - each.at > 30 * 86400000);
  if (old.length)
    await write(['sent', 'photo'], (change) => {
      for (const each of old) {
        change.objectStore('sent').delete(each.id);
        change.objectStore('photo').delete(each.id);
      }
    });
  const young = sent.filter((each) => !old.includes(each));
  for (let at = 0; at === 0 || at < young.length; at += 50) {
    const some = young.slice(at, at + 50);
    const stop = new AbortController();
    const clock = setTimeout(() => stop.abort(), 20000);
    let answer;
    try {
      const query = new URLSearchParams(some.map((each) => ['id', each.id]));
      answer = orNotNow(await fetch('/known?' + query, {
        signal: stop.signal, cache: 'no-store', credentials: 'same-origin', headers: { Accept: 'application/json' },
      }));
    } finally {
      clearTimeout(clock);
    }
    if (answer.redirected) throw new NotNow('this device has to be paired again');
    const said = answer.ok ? await answer.json() : { missing: [] };
    const { missing } = said;
    if (said.now) {
      ahead = Date.now() - Date.parse(said.now);
      houseDay = said.today || '';
      await setNote('ahead', ahead);
    }
    await takeBack(some.filter((each) => missing.includes(each.id)));
  }
  if (sent.length) await setNote('known asked', Date.now());
}
// Where the clock by which something was kept and the house's disagree about its day, a person says once which of them is
// right; nothing goes before that. A day that was typed stays as it is. Some minutes are no question: what was kept after
// midnight waits until it is midnight in the house.
const minutesApart = 15 * 60000;
async function dayIsKnown(entry) {
  const form = new URLSearchParams(entry.form);
  if (entry.state !== 'here' || form.get('date')) return entry;
  const off = entry.ahead ?? ahead;
  const right = new Date(entry.held - off);
  if (Math.abs(off) > minutesApart && dayHere(right) !== dayHere(new Date(entry.held))) {
    const settled = (await note('clocks settled') || []).find((each) => Math.abs(each.ahead - off) <= 3600000);
    if (!settled) {
      doubtful = { ahead: off, elsewhere: entry.ahead !== undefined };
      throw new NotNow('the clock of the device and that of the house are not on the same day: say which is right');
    }
    if (settled.by === 'house' && !entry.dayWas) {
      const shift = Date.parse(dayHere(right)) - Date.parse(dayHere(new Date(entry.held)));
      const was = form.get('day') || dayHere(new Date(entry.held));
      form.set('day', new Date(Date.parse(was) + shift).toISOString().slice(0, 10));
      const changed = { form: form.toString(), dayWas: was };
      await changeHeld(entry.order, changed);
      return { ...entry, ...changed };
    }
  } else if (houseDay && (form.get('day') || '') > houseDay && Math.abs(off) <= minutesApart)
    throw new NotNow('in the house it is still the day before');
  return entry;
}

// From what was sent into the outbox again, with the photo where it is still there.
async function takeBack(lost) {
  for (const each of lost) {
    const photo = await read('photo', (photos) => photos.get(each.id));
    const { at, ...kept } = each;
    await write(['entry', 'sent'], (change) => {
      change.objectStore('entry').add({ from: '/receipt', ...kept, state: 'here', photo: Boolean(photo) });
      change.objectStore('sent').delete(each.id);
    });
  }
}

// Everything that may go, in order. Gives what became of each id; never throws.
function send() {
  sendingNow ??= round().finally(() => { sendingNow = null; });
  return sendingNow;
}
async function round() {
  const became = new Map();
  clearTimeout(pauseClock);
  try {
    // The page of away asks for its lists at once, and needs no further contact while nothing waits.
    if (location.pathname !== '/away' || (await heldEntries()).length) {
      await houseProves();
      await askKnown();
    }
    doubtful = null;
    const refusedCars = new Set();
    for (const kept of await heldEntries()) {
      const entry = await dayIsKnown(kept);
      const car = carOf(entry.form);
      if (entry.id === interactive) continue;
      if (entry.state === 'refused' && car) refusedCars.add(car);
      if (entry.state === 'refused' || entry.state === 'photo refused') continue;
      if (entry.state === 'here' && refusedCars.has(car)) continue;
      const left = await sendOne(entry);
      became.set(entry.id, left);
      if (left.state === 'refused' && car) refusedCars.add(car);
      told();
      showHeld();
    }
    reached = '';
    pause = 0;
    await setNote('reached', Date.now());
  } catch (wrong) {
    reached = whyNot(wrong);
    later();
  }
  await showHeld();
  return became;
}
function later() {
  pause = Math.min(60000, Math.max(2000, pause * 2));
  clearTimeout(pauseClock);
  pauseClock = setTimeout(send, pause * (0.75 + Math.random() / 2));
}

// "since 14:05", "since Tuesday 14:05 (3 days)".
function sinceWords(at, now = Date.now()) {
  const then = new Date(at);
  const clock = `${String(then.getHours()).padStart(2, '0')}:${String(then.getMinutes()).padStart(2, '0')}`;
  const days = Math.floor((now - at) / 86400000);
  if (dayHere(then) === dayHere(new Date(now))) return `since ${clock}`;
  const weekday = then.toLocaleDateString('en-GB', { weekday: 'long' });
  return `since ${weekday} ${clock}` + (days > 0 ? ` (${days} day${days > 1 ? 's' : ''})` : '');
}

// The line that stands on every page: what is not in the book yet, and since when.
async function showHeld() {
  const line = document.querySelector('p.held');
  if (!line) return;
  let entries;
  try {
    entries = await heldEntries();
  } catch {
    return;
  }
  const here = entries.filter((entry) => entry.state === 'here');
  const photos = entries.filter((entry) => entry.state === 'photo');
  const refused = entries.filter((entry) => entry.state === 'refused' || entry.state === 'photo refused');
  const parts = [];
  if (here.length) parts.push(`${here.length} on this device only, ${sinceWords(here[0].held)}.`);
  if (photos.length) parts.push(`${photos.length} in the book, the photo still to go.`);
  if (refused.length) parts.push(`${refused.length} refused: to be changed or thrown away.`);
  if (entries.length && reached) parts.push(reached[0].toUpperCase() + reached.slice(1) + '.');
  const late = entries.length > 0 && Date.now() - entries[0].held > 86400000;
  if (late) parts.push('Older than a day: bring this device home.');
  const clock = await note('clock');
  if (clock) parts.push(`The clock runs on this device: ${clock.vehicle}, ${lastedWords(clock.since)}.`);
  const asOf = location.pathname === '/device' ? 0 : Date.parse(document.documentElement.dataset.asOf || '');
  if (reached && asOf && !entries.length)
    parts.push(reached[0].toUpperCase() + reached.slice(1) + '.');
  if (reached && asOf) parts.push(`This page is as of ${sinceWords(asOf).replace('since ', '')}.`);
  const text = parts.join(' ');
  line.classList.toggle('waits', refused.length > 0 || late || reached.includes('paired') || Boolean(doubtful));
  if (line.dataset.text !== text) {
    line.dataset.text = text;
    line.replaceChildren(text);
    if (text && (entries.length || reached.includes('paired'))) {
      const link = document.createElement('a');
      link.href = reached.includes('paired') ? '/pair' : '/device';
      link.textContent = reached.includes('paired') ? 'Pair again' : doubtful ? 'Say which' : 'Look at them';
      line.append(' ', link);
    }
    if (clock && window.clockOff) {
      const button = document.createElement('button');
      button.type = 'button';
      button.textContent = 'Clock off';
      button.addEventListener('click', () => window.clockOff());
      line.append(' ', button);
    }
  }
  if (window.showDevice) window.showDevice(entries);
}

function watchOutbox() {
  const anew = () => {
    pause = 0;
    send();
  };
  addEventListener('online', () => {  // another network, perhaps
    provenAt = 0;
    anew();
  });
  addEventListener('pageshow', anew);
  document.addEventListener('visibilitychange', () => document.hidden || anew());
  setInterval(() => pause || send(), 30000);
}
