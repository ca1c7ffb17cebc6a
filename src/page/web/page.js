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

async function keep(form, button) {
  const id = freshId();
  const fields = formText(form, button, id);
  const photo = form.querySelector('input[data-photo]');
  const instead = Number(form.dataset.instead || 0);
  await hold(id, fields.toString(), wordsOf(fields), await photoOf(photo), location.pathname + location.search, instead);
  await forgetDraft(form);
  const left = await Promise.race([send(), new Promise((done) => setTimeout(done, 4000))]);
  const mine = left && left.get(id);
  if (mine && mine.state === 'refused') {
    const held = (await heldEntries()).find((entry) => entry.id === id);
    if (held) await letGo(held, false);
    told();
    await showHeld();
    return sayIn(form, mine.why);
  }
  const onto = onward(form, fields);
  if (mine) {
    if (mine.message) sessionStorage.setItem('said', mine.message);
    location.assign(onto);
    return undefined;
  }
  // The house is not reached, or slow: the form is free for the next one.
  form.reset();
  delete form.dataset.instead;
  sayIn(form, '');
  await showHeld();
  const first = form.querySelector('input:not([type="hidden"]), select');
  if (first) first.focus();
  return undefined;
}

function watchForms() {
  document.addEventListener('submit', async (event) => {
    const form = event.target;
    if (!form.hasAttribute('data-kept') || event.defaultPrevented) return;
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
  for (const [name, value] of fields) {
    const field = form.elements[name];
    if (!field || name === 'kept' || name === 'next') continue;
    const each = field instanceof RadioNodeList ? [...field] : [field];
    for (const one of each)
      if (one.type === 'checkbox' || one.type === 'radio') one.checked = one.value === value;
      else if (one.type !== 'hidden' && one.type !== 'file') one.value = value;
  }
  for (let up = form.querySelector('details'); up; up = null) up.open = true;
  form.dispatchEvent(new Event('input'));
}

async function changeOne() {
  const order = Number(sessionStorage.getItem('change') || 0);
  sessionStorage.removeItem('change');
  if (!order) return;
  const held = (await heldEntries()).find((entry) => entry.order === order);
  if (!held) return;
  const fields = new URLSearchParams(held.form);
  const form = [...document.querySelectorAll('form[data-kept]')].find((each) =>
    !each.elements.do || each.elements.do.value === fields.get('do'));
  if (!form) return;
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
  await changeOne();
  await watchDrafts();
  await showHeld();
  watchOutbox();
  send();
}
begin();
