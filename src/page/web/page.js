// What the forms of every room gain by a script. Without it they are posted as they are.

// A line of what is wrong, at the head of the form and read out; an empty one goes.
function sayIn(form, text) {
  let line = form.querySelector(':scope > p.refused');
  if (!line && text) {
    line = document.createElement('p');
    line.className = 'refused';
    line.setAttribute('role', 'alert');
    form.prepend(line);
  }
  if (line && !text) line.remove();
  else if (line) {
    line.textContent = text;
    line.scrollIntoView({ block: 'nearest' });
  }
}

// What stands in the form as it will be sent: named fields that are not files, the button that was pressed, and this
// device's day.
function formText(form, button, id) {
  const data = new FormData(form);
  if (button && button.name) data.append(button.name, button.value);
  const fields = new URLSearchParams();
  for (const [name, value] of data)
    if (typeof value === 'string' && name !== 'kept' && name !== 'next' && (value.trim() || name === 'do'))
      fields.append(name, value);
  fields.append('kept', id);
  if (!fields.has('day')) fields.append('day', dayHere());
  return fields;
}
// "receipt 61.37 pip", for the list of what is on this device.
function wordsOf(fields) {
  const said = [fields.get('do')];
  for (const name of ['amount', 'total', 'price', 'what', 'operation', 'supplier', 'vehicle'])
    if (fields.get(name)) said.push(fields.get(name));
  return said.join(' ');
}

// Only to a place of ours.
function onward(form, fields) {
  const next = form.elements.next && form.elements.next.value;
  if (next && /^\/(?!\/)/.test(next)) return next;
  return fields.get('vehicle') ? '/car/' + encodeURIComponent(fields.get('vehicle')) : '/';
}

// With the house in reach a person is there to be asked: what is held already is posted as the form itself would be,
// under the same id. Gives { to } for another page, { ask } where a question follows, { why } for a refusal; throws
// where the house does not answer.
async function postNow(form, fields) {
  const body = new URLSearchParams(fields);
  if (form.elements.next) body.append('next', form.elements.next.value);
  const stop = new AbortController();
  const clock = setTimeout(() => stop.abort(), 5000);
  let answer;
  let text = '';
  try {
    answer = orNotNow(await fetch('/entry', {
      method: 'POST', body, signal: stop.signal, cache: 'no-store', credentials: 'same-origin',
      headers: { Accept: 'application/json' },
    }));
    text = await answer.text();
  } finally {
    clearTimeout(clock);
  }
  if (answer.redirected) return new URL(answer.url).pathname === '/pair' ? { again: true } : { to: answer.url };
  if ((answer.headers.get('Content-Type') || '').includes('json')) {
    const said = JSON.parse(text);
    return answer.ok ? { to: onward(form, fields), said: said.message } : { why: said.message };
  }
  const page = new DOMParser().parseFromString(text, 'text/html');
  if (page.querySelector('form.ask')) return { ask: true };
  const reasons = [...page.querySelectorAll('.reason')].map((each) => each.textContent.trim()).join(' ');
  if (!answer.ok) return { why: reasons || `the house answered ${answer.status}` };
  const way = page.querySelector('main a[href^="/"]');
  return { to: way ? way.getAttribute('href') : onward(form, fields), said: reasons };
}

const askedPhotos = new WeakMap();  // the form of a question -> the photo that waits for its answer
const isClock = (fields) => (fields.get('do') || '').startsWith('clock');

// Away from home the clock runs on the device; when it is switched off it is hours, of the day on which it began. A clock
// that runs in the house goes off there: its form says so where the house is out of reach.
async function clockHere(form, fields) {
  const running = await note('clock');
  if (fields.get('do') !== 'clock on') return sayIn(form, 'The house is not reached: its clock runs on; switch it off once it is.');
  if (running) return sayIn(form, `The clock runs on this device already: ${running.vehicle}.`);
  await setNote('clock', { vehicle: fields.get('vehicle'), operation: fields.get('operation') || 'work', since: Date.now() });
  return showHeld();
}
// Longer than this nobody works on in one go (the house says the same of its clocks).
const isForgotten = (running) => Date.now() - running.since > 12 * 3600000;
// `own`: how long it really was; `operation`: what was done after all; `done`: its line is.
async function clockOff({ own = '', operation = '', done = '' } = {}) {
  const running = await note('clock');
  if (!running) return showHeld();
  if (isForgotten(running) && !own) return location.assign('/away');  // asks how long it really was
  const id = freshId();
  const entry = new URLSearchParams({
    do: 'hours', vehicle: running.vehicle, own: own || hoursBetween(running.since, Date.now()),
    operation: operation || running.operation, ...(done && { done }), day: dayHere(new Date(running.since)), kept: id,
  });
  await holdHours(running, { id, held: Date.now(), form: entry.toString(), words: wordsOf(entry), from: '/away', state: 'here',
    photo: false });
  pause = 0;
  send();
  return showHeld();
}
window.clockOff = clockOff;

async function keep(form, button) {
  const id = freshId();
  let fields = formText(form, button, id);
  const photo = askedPhotos.get(form) || await photoOf(form.querySelector('input[data-photo]'));
  const clock = isClock(fields);
  interactive = id;
  try {
    if (!clock) {
      const instead = Number(form.dataset.instead || 0);
      await hold(id, fields.toString(), wordsOf(fields), photo, location.pathname + location.search, instead);
      await forgetDraft(form);
    }
    let left;
    try {
      await Promise.race([send(), new Promise((_, late) =>  // what was kept before goes before
        setTimeout(() => late(new NotNow('what was kept before is still being sent')), 5000))]);
      if (!reached) await houseProves();
      const mine = clock ? null : (await heldEntries()).find((entry) => entry.id === id);
      if (!reached && mine) fields = new URLSearchParams((await dayIsKnown(mine)).form);
      if (!reached) left = await postNow(form, fields);
      if (left && left.again) throw new NotNow('this device has to be paired again');
    } catch (wrong) {
      reached = whyNot(wrong);
    }
    if (!left) {
      if (clock) await clockHere(form, fields);
      else {
        // The form is free for the next one.
        form.reset();
        delete form.dataset.instead;
        photosGone(form);
      }
      interactive = '';
      later();
      return await showHeld();
    }
    const held = clock ? null : (await heldEntries()).find((entry) => entry.id === id);
    if (left.to) {
      if (askedPhotos.has(form)) await dropNote('photo asked');
      if (held && held.photo) await changeHeld(held.order, { state: 'photo' });
      else if (held) await letGo(held, true);
      if (left.said) sessionStorage.setItem('said', left.said);
      if (held && held.photo) {
        interactive = '';
        await Promise.race([send(), new Promise((done) => setTimeout(done, 1500))]);
      }
      location.assign(left.to);
      return undefined;
    }
    if (left.ask) {
      // The question is the house's page: the form goes there as it is, and its photo waits for the answer.
      if (held) await letGo(held, false);
      if (photo) await setNote('photo asked', { id, bytes: await photo.arrayBuffer(), type: photo.type, at: Date.now() });
      for (const [name, value] of fields) {
        const field = form.elements[name];
        if (field && !(field instanceof RadioNodeList) && (name === 'kept' || name === 'day')) field.value = value;
        else if (name === 'kept' || name === 'day' || (button && name === button.name)) {
          const hidden = document.createElement('input');
          hidden.type = 'hidden';
          hidden.name = name;
          hidden.value = value;
          form.append(hidden);
        }
      }
      form.submit();
      return undefined;
    }
    if (held) await letGo(held, false);
    told();
    await showHeld();
    return sayIn(form, left.why);
  } finally {
    interactive = '';
  }
}

function watchForms() {
  document.addEventListener('submit', async (event) => {
    const form = event.target;
    if (!form.hasAttribute('data-kept') || event.defaultPrevented) return;
    if (new URL(form.getAttribute('action'), location.href).pathname !== '/entry') return;  // no entry of the book
    event.preventDefault();
    if (form.dataset.busy) return;  // a second tap
    form.dataset.busy = 'yes';
    try {
      sayIn(form, '');
      await keep(form, event.submitter);
    } catch (wrong) {
      sayIn(form, 'Not kept: ' + (wrong && wrong.message || 'this browser keeps nothing') + '.');
    } finally {
      delete form.dataset.busy;
    }
  });
}

// Fills the form of this page with what was held of it.
function fill(form, fields) {
  linesUpTo(form, fields);
  for (const [name, value] of fields) {
    const field = form.elements[name];
    if (!field || name === 'kept' || name === 'next') continue;
    const each = field instanceof RadioNodeList ? [...field] : [field];
    for (const one of each)
      if (one.type === 'checkbox' || one.type === 'radio') one.checked = one.value === value;
      else if (one.type !== 'hidden' && one.type !== 'file') one.value = value;
  }
  for (const fold of [form.querySelector('details'), form.closest('details')]) if (fold) fold.open = true;
  form.dispatchEvent(new Event('input'));
}

async function changeOne() {
  const order = Number(sessionStorage.getItem('change') || 0);
  sessionStorage.removeItem('change');
  if (!order) return;
  const held = (await heldEntries()).find((entry) => entry.order === order);
  if (!held) return;
  const fields = new URLSearchParams(held.form);
  // Of several forms that do the same the one about the same thing: what a form says unseen is not changed by it.
  const fits = (form) => ['do', 'line', 'what', 'supplier', 'vehicle', 'entry'].every((name) =>
    !form.elements[name] || form.elements[name].type !== 'hidden' || form.elements[name].value === fields.get(name));
  const form = [...document.querySelectorAll('form[data-kept]')].find(fits);
  if (!form) return;
  form.hidden = false;
  fill(form, fields);
  form.dataset.instead = held.order;
  sayIn(form, held.why ? `Refused: ${held.why}.` : 'Kept on this device; keeping it again takes its place.');
}

// A half-typed paper stays until it is kept.
const draftName = (form) => 'draft ' + location.pathname + ' ' + [...document.forms].indexOf(form);
const forgetDraft = (form) => (form.hasAttribute('data-paper') ? dropNote(draftName(form)) : Promise.resolve());
async function watchDrafts() {
  for (const form of document.querySelectorAll('form[data-paper]')) {
    const drafted = await note(draftName(form));
    if (drafted && !form.dataset.instead) {
      fill(form, new URLSearchParams(drafted));
      sayIn(form, 'As it was left, not kept yet.');
    }
    let clock = 0;
    form.addEventListener('input', () => {
      clearTimeout(clock);
      clock = setTimeout(() => setNote(draftName(form), formText(form, null, '').toString()), 400);
    });
  }
}

function showSaid() {
  const said = sessionStorage.getItem('said');
  sessionStorage.removeItem('said');
  if (!said) return;
  const line = document.createElement('p');
  line.className = 'small';
  line.setAttribute('role', 'status');
  line.textContent = said;
  const heading = document.querySelector('h1');
  if (heading) heading.after(line);
}

// Whether the worker has what opens away from home; it fetches what it lacks, and all of it where `what` is 'anew'. One that
// does not answer in time has it not.
async function workerHolds(what) {
  const late = new Promise((done) => { setTimeout(() => done(false), 30000); });
  const answered = (async () => {
    const { active } = await navigator.serviceWorker.ready;
    const channel = new MessageChannel();
    const said = new Promise((done) => { channel.port1.onmessage = (event) => done(event.data); });
    active.postMessage(what, [channel.port2]);
    return said;
  })();
  return Promise.race([answered, late]);
}

// Whether this page opens away from home, as far as this browser allows it: found by trying.
async function watchAway() {
  if (!/^\/(device)?$/.test(location.pathname)) return;
  let words = '';
  let now = false;
  if (!isSecureContext) words = 'This page opens away from home, but do not reload it there.';
  else
    try {
      await navigator.serviceWorker.register('/worker.js');
      now = await workerHolds('missing');
      words = now ? 'This page opens away from home, a reload included.'
        : 'Not yet ready for away from home: open this page once more while the house is in reach.';
    } catch {
      words = 'Only at home: this browser does not trust the house, and keeps nothing of it. ' +
        'Away from home there is no page and nothing can be kept.';
    }
  let line = document.querySelector('#away');
  if (!line && !now) {
    line = document.createElement('p');
    line.className = 'small';
    document.querySelector('main').append(line);
  }
  if (line) line.textContent = words;
}

// What opens away from home is renewed while the house is in reach, some time after the page itself.
async function renewAway() {
  if (reached || Date.now() - (await note('renewed') || 0) < 3600000) return;
  try {
    await houseProves();  // where nothing waits, nobody has asked it yet
    if (navigator.serviceWorker && navigator.serviceWorker.controller) await workerHolds('anew');
    else for (const path of ['/away', '/device']) await fetch(path, { cache: 'reload', redirect: 'error' });
    const answer = await fetch('/away.json', { cache: 'no-store', redirect: 'error' });
    if (answer.ok) await setNote('lists', await answer.json());
    await setNote('renewed', Date.now());
  } catch {
    // the next contact does it
  }
}

// The photo of a form that the house asked about: it belongs to the entry that came of the answer.
async function askedPhoto() {
  const waiting = await note('photo asked');
  if (!waiting) return;
  const form = document.querySelector('form.ask');
  if (form && form.elements.kept && form.elements.kept.value === waiting.id) {
    askedPhotos.set(form, new Blob([waiting.bytes], { type: waiting.type }));
  } else if (Date.now() - waiting.at > 3600000) await dropNote('photo asked');
}

async function begin() {
  watchClock();
  watchEnter();
  watchPhotos();
  watchPapers();
  try {
    await store();
  } catch {
    return;  // a browser that keeps nothing: the forms are posted as they are
  }
  watchForms();
  showSaid();
  if (location.pathname !== '/away') await changeOne();  // there the forms come with the lists
  await watchDrafts();
  await askedPhoto();
  await showHeld();
  watchOutbox();
  send();
  watchAway();
  setTimeout(renewAway, 15000);
}
begin();
