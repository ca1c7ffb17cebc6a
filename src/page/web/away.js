// The page that works with the house out of reach. Its lists and the answers for cars that were taken along are what this
// device fetched last; nothing here computes money: a price that is asked is looked up among those that the house said.
const made = (tag, words, more = {}) => Object.assign(document.createElement(tag), words === undefined ? {} : { textContent: words }, more);

function hiddenFields(form, fields) {
  for (const [name, value] of Object.entries(fields)) form.append(made('input', undefined, { type: 'hidden', name, value }));
}
function labelled(words, field) {
  const label = made('label');
  label.append(made('span', words), ' ', field);
  return label;
}
// As the default, so that a form that was kept has it again.
const moneyField = (name, value = '') =>
  made('input', undefined, { name, defaultValue: value, type: 'text', inputMode: 'decimal', autocomplete: 'off' });
function listField(name, values, chosen) {
  const list = made('select', undefined, { name });
  list.append(...values.map((value) => made('option', value, { value, selected: value === chosen })));
  return list;
}
// Chosen only once they stand in the list: options that are moved there from another one would leave the last chosen. As
// the default too, so that the form that was emptied for the next receipt has it again.
function choose(list, values, chosen) {
  list.replaceChildren(...values.map((value) => made('option', value, { value, defaultSelected: value === chosen })));
  if (values.includes(chosen)) list.value = chosen;
}
function entryForm(fields, parts, button) {
  const form = made('form', undefined, { method: 'post', action: '/entry' });
  form.setAttribute('data-kept', '');
  hiddenFields(form, { kept: '', next: '/away', ...fields });
  form.append(...parts, made('button', button));
  return form;
}
function folded(summary, ...parts) {
  const fold = made('details', undefined, { className: 'detail' });
  fold.append(made('summary', summary), ...parts);
  return fold;
}

// What was done, as it is called in the budget of the car.
const workOf = (lists, car) => (lists.work || []).filter((each) => each.vehicle === car);
function showHours(lists) {
  const form = [...document.querySelectorAll('#away-hours form')].find((each) => each.elements.do.value === 'hours');
  choose(form.elements.vehicle, lists.cars, lists.car);
  const offer = () => document.querySelector('#away-work').replaceChildren(
    ...workOf(lists, form.elements.vehicle.value).map((each) => made('option', each.says, { value: each.operation })));
  form.elements.vehicle.onchange = offer;
  offer();
}

// The clock of this device; drawn anew only where another one runs, so that nothing goes from under a finger.
async function showClock(lists) {
  const place = document.querySelector('#away-clock');
  const running = await note('clock');
  const shown = running ? `${running.vehicle} ${running.since}` : 'off';
  if (place.dataset.shown === shown) return;
  place.dataset.shown = shown;
  if (!running) {
    const house = lists.clock
      ? [made('p', `In the house your clock ran on ${lists.clock.vehicle}, ${sinceWords(Date.parse(lists.clock.since))}: it goes off there.`, { className: 'reason' })]
      : [];
    place.replaceChildren(...house, entryForm({ do: 'clock on' },
      [labelled('car', listField('vehicle', lists.cars, lists.car))], 'Clock on'));
    return;
  }
  const lasted = made('time', lastedWords(running.since), { dateTime: new Date(running.since).toISOString() });
  lasted.setAttribute('data-since', '');
  const figure = made('p', undefined, { className: 'figure' });
  figure.append(lasted);
  const work = [running.operation, ...workOf(lists, running.vehicle).map((each) => each.operation)];
  const own = moneyField('own');
  const long = isForgotten(running);
  const hours = long
    ? [made('p', `The clock was forgotten, it seems: it began ${sinceWords(running.since)}. How long was it really?`, { className: 'reason' }),
      labelled('hours, such as 2.5 or 1:30', own)]
    : [folded('It was another time', labelled('hours, such as 2.5 or 1:30', own))];
  own.required = long;
  const buttons = made('p', undefined, { className: 'choices' });
  buttons.append(made('button', 'Keep'), made('button', 'Keep, done', { name: 'done', value: 'true' }));
  const form = made('form');
  form.append(labelled('what was done', listField('operation', [...new Set(work)], running.operation)), ...hours, buttons);
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    clockOff({ operation: form.elements.operation.value, own: own.value.trim(), done: event.submitter ? event.submitter.value : '' });
  });
  place.replaceChildren(figure, made('p', `on ${running.vehicle}, the clock of this device runs.`), form);
}

// Brought back, or bought: what is kept on this device already is not offered once more, but where it can be in parts.
const sameThing = ['do', 'line', 'what', 'supplier', 'vehicle'];
function markKept(entries) {
  const kept = entries.map((entry) => new URLSearchParams(entry.form));
  for (const form of document.querySelectorAll('#away-due form, #away-shopping form')) {
    const there = kept.some((fields) => sameThing.every((name) =>
      !form.elements[name] || form.elements[name].type !== 'hidden' || fields.get(name) === form.elements[name].value));
    const summary = form.closest('details').querySelector('summary');
    summary.dataset.says ??= summary.textContent;
    summary.textContent = summary.dataset.says + (there ? ': kept on this device' : '');
    form.hidden = there && !form.dataset.instead && !(form.elements.qty && form.elements.qty.type !== 'hidden');
  }
}

const backForm = (lists) => (back) => folded(back.says, back.button && !back.cannot
  ? entryForm(back.fields, [...back.asked.map((each) => labelled(each.label, moneyField(each.name, each.value))),
    ...(back.purse === null ? [] : [labelled('purse', listField('purse', back.purse ? lists.purses : ['', ...lists.purses], back.purse))])],
  back.button)
  : made('p', back.cannot || 'Open this page once more at home.'));

function showLists(lists) {
  const form = document.querySelector('#away-room form');
  choose(form.elements.vehicle, lists.cars, lists.car);
  showHours(lists);
  choose(form.elements.purse, lists.purses, lists.purse);
  document.querySelector('#away-words').replaceChildren(...lists.words.map((value) => made('option', undefined, { value })));
  const shopping = document.querySelector('#away-shopping');
  shopping.replaceChildren(made('h2', 'To be bought'), ...lists.shopping.map((line) => folded(line.says, entryForm(
    { do: 'receipt', vehicle: line.vehicle, what: line.what },
    [labelled(line.core ? 'price paid, tax included, without the deposit' : 'price paid, tax included', moneyField('amount', line.amount)),
      ...(line.core ? [labelled('deposit on top', moneyField('core', line.core))] : []),
      labelled('purse', listField('purse', lists.purses, lists.purse))], 'Bought'))));
  if (!lists.shopping.length) shopping.append(made('p', 'Nothing is to be bought.'));
  const due = document.querySelector('#away-due');
  // What an older program gave is words alone.
  const back = lists.back || lists.due.map((says) => ({ says }));
  const may = lists.may_go_back || [];
  due.replaceChildren(made('h2', 'Due back'), ...(back.length ? back.map(backForm(lists)) : [made('p', 'Nothing is due back.')]),
    ...(may.length ? [made('h2', 'May still go back'), ...may.map(backForm(lists))] : []));
  document.querySelector('#away-room').hidden = false;
}

// "1:2,3:1": of test 1 its second outcome, of test 3 its first; as the house names its states.
const keyOf = (seen) => Object.keys(seen).map(Number).sort((a, b) => a - b).map((test) => `${test}:${seen[test]}`).join(',');

// What to do at the price that is asked: the house said it for every price, so it is only looked up.
function adviceAt(asked, state, digits) {
  const said = coins(asked, digits);
  if (said === null || said < 0n) return asked.trim() ? `${asked} is no price.` : '';
  const row = state.at_prices.find((each) => each.up_to === null || said <= coins(each.up_to, digits));
  return `At ${asked}: ${row.says}.`;
}

function showCar(along, lists, drafts) {
  const seen = drafts[along.tag] || {};
  const digits = lists.digits;
  const section = made('section');
  const head = made('div', undefined, { className: 'fixed' });
  const tests = made('div');
  const price = moneyField('', '');
  price.removeAttribute('name');
  const advice = made('p');
  advice.setAttribute('role', 'status');
  const forms = made('div');

  const stateNow = () => along.states[keyOf(seen)];
  const tap = async (test, outcome) => {
    if (seen[test] === outcome) delete seen[test];
    else seen[test] = outcome;
    drafts[along.tag] = seen;
    await setNote('drafts', drafts);
    show();
  };
  const show = () => {
    const state = stateNow();
    head.replaceChildren(made('p', undefined, { className: 'verdict' }));
    head.firstChild.append(made('strong', state ? state.verdict : 'Not taken along'));
    if (!state) head.append(made('p', `${along.how_whole}: ask the house at home.`));
    else {
      // What an older program took along has no words for it.
      if (state.limit) head.append(made('p', state.limit, { className: 'figure' }));
      else if (state.walk_away !== null) head.append(made('p', `never pay more than ${state.walk_away}`, { className: 'figure' }));
      if (state.next) head.append(made('p', state.next));
    }
    advice.textContent = state ? adviceAt(price.value, state, digits) : '';
    tests.replaceChildren(...along.tests.flatMap((test, at) => {
      const row = made('div', undefined, { className: 'choices' });
      const number = at + 1;
      if (test.seen !== null || test.spoiled) row.append(made('p', test.spoiled ? 'spoiled' : `in the book: ${test.outcomes[test.seen - 1]}`));
      else
        row.append(...test.outcomes.map((outcome, which) => {
          const button = made('button', outcome, { type: 'button', onclick: () => tap(number, which + 1) });
          button.setAttribute('aria-pressed', String(seen[number] === which + 1));
          return button;
        }));
      return [made('h3', `${number}. ${test.name}`), ...(test.takes ? [made('p', test.takes, { className: 'small' })] : []), row];
    }));
    const costs = state ? state.costs_to_name : [];
    const toSay = made('ul');
    toSay.append(...costs.map((cost) => made('li', `${cost.what}: ${cost.amount}`)));
    const outcomes = Object.fromEntries(Object.entries(seen).map(([test, which]) =>
      [test, `${along.tests[test - 1].name}=${along.tests[test - 1].outcomes[which - 1]}`]));
    const withSeen = (fields, parts, button) => {
      const form = entryForm({ vehicle: along.tag, decided_by: along.appraisal || '', ...fields }, parts, button);
      for (const words of Object.values(outcomes)) hiddenFields(form, { tests_seen: words });
      return form;
    };
    forms.replaceChildren(
      ...(costs.length ? [folded('What to say', toSay)] : []),
      folded('Bought', withSeen({ do: 'buy' }, [labelled('price paid', moneyField('price', price.value)),
        labelled('purse', listField('purse', lists.purses, lists.purse))], 'Bought')),
      folded('Left', withSeen({ do: 'pass' }, [labelled('why', made('input', undefined, { name: 'why', type: 'text' }))], 'Left it')));
  };
  price.addEventListener('input', () => {
    const state = stateNow();
    advice.textContent = state ? adviceAt(price.value, state, digits) : '';
    for (const field of forms.querySelectorAll('[name=price]')) field.value = price.value;
  });
  section.append(made('h2', `${along.tag}: ${along.description}`), made('p', `as of ${sinceWords(Date.parse(along.as_of)).replace('since ', '')}; ${along.how_whole}`, { className: 'small' }),
    head, labelled('price asked', price), advice, tests, forms);
  show();
  return section;
}

// Part after part, the likeliest states first: how far it is stands there, and it can be ended with what came. Gives null
// where nothing came; throws where the house is lost on the way and nothing was there.
async function takeAlong(tag, told, ended) {
  let along = null;
  for (let from = 0; from !== null && !ended();) {
    await houseProves();
    let part;
    try {
      const answer = await fetch(`/take-along/${encodeURIComponent(tag)}.json?from=${from}`, { cache: 'no-store' });
      if (answer.redirected) throw new NotNow('this device has to be paired again');
      if (!answer.ok) throw new NotNow(`the house answered ${answer.status}`);
      part = await answer.json();
    } catch (wrong) {
      if (!along) throw wrong;
      break;  // what came so far says itself that it is not whole
    }
    // Something was kept or found meanwhile: what came before is of another appraisal.
    const same = along && along.appraisal === part.appraisal && JSON.stringify(along.tests) === JSON.stringify(part.tests);
    if (along && !same) {
      along = null;
      from = 0;
      continue;
    }
    along = { ...part, states: { ...(along || {}).states, ...part.states } };
    from = part.go_on;
    told(Object.keys(along.states).length, part.meant);
  }
  return along;
}
function takeButtons(tag, lists, along) {
  const row = made('div', undefined, { className: 'choices' });
  const again = along ? `Take ${tag} along anew` : `Take ${tag} along`;
  row.append(made('button', again, {
    type: 'button',
    onclick: async (event) => {
      const button = event.target;
      let ended = false;
      button.disabled = true;
      button.textContent = `Taking ${tag} along ...`;
      const enough = made('button', 'Enough', { type: 'button', onclick: () => { ended = true; } });
      row.append(enough);
      try {
        const taken = await takeAlong(tag, (there, meant) => {
          button.textContent = `Taking ${tag} along: ${there} of ${meant}`;
        }, () => ended);
        if (taken) await setNote('along ' + tag, taken);
        await showCars(lists);
      } catch (wrong) {
        enough.remove();
        button.disabled = false;
        button.textContent = `${again}: ${whyNot(wrong)}`;
      }
    },
  }));
  return row;
}

async function showCars(lists) {
  const cars = document.querySelector('#away-cars');
  const drafts = await note('drafts') || {};
  const parts = [];
  for (const tag of lists.looked_at) {
    const along = await note('along ' + tag);
    // What an older program took along lacks the answers at each price.
    if (along && Object.values(along.states).every((state) => state.at_prices))
      parts.push(folded(`${tag}: before its seller`, showCar(along, lists, drafts)));
    parts.push(takeButtons(tag, lists, along));
  }
  cars.replaceChildren(made('h2', 'Before the seller'), ...(parts.length ? parts : [made('p', 'No car was looked at.')]));
}

// Of a car that was decided about nothing stays: should it come back, it is looked at anew.
async function forgetDecided(lists) {
  await write(['note'], (change) => {
    const notes = change.objectStore('note');
    notes.getAllKeys().onsuccess = ({ target }) => {
      for (const name of target.result)
        if (name.startsWith('along ') && !lists.looked_at.includes(name.slice(6))) notes.delete(name);
    };
    notes.get('drafts').onsuccess = ({ target }) => {
      const drafts = target.result || {};
      notes.put(Object.fromEntries(Object.entries(drafts).filter(([tag]) => lists.looked_at.includes(tag))), 'drafts');
    };
  });
}

(async () => {
  const room = document.querySelector('#away-room');
  const show = async (lists) => {
    document.querySelector('#away-as-of').textContent = `As of ${sinceWords(Date.parse(lists.as_of)).replace('since ', '')}.`;
    showLists(lists);
    window.showDevice = (entries) => {
      markKept(entries);
      showClock(lists);
    };
    window.showDevice(await heldEntries());
    await showCars(lists);
  };
  // What a hand has begun stays as it is.
  const begun = () => room.querySelector('details[open], form[data-instead]') ||
    [...room.querySelectorAll('input:not([type=hidden])')].some((each) => each.value !== each.defaultValue);
  let lists = await note('lists');
  if (lists) await show(lists);
  await changeOne();
  try {
    await houseProves();  // the cookie goes to nobody else
    const answer = await fetch('/away.json', { cache: 'no-store' });
    if (!answer.ok) return;
    lists = await answer.json();
    await setNote('lists', lists);
    await forgetDecided(lists);
    if (!begun()) await show(lists);
  } catch {
    // out of reach: what is on the device stands there already
  }
})();
