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
const moneyField = (name, value = '') =>
  made('input', undefined, { name, value, type: 'text', inputMode: 'decimal', autocomplete: 'off' });
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

function showLists(lists) {
  const form = document.querySelector('#away-room form');
  choose(form.elements.vehicle, lists.cars, lists.car);
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
  const items = made('ul');
  items.append(...lists.due.map((words) => made('li', words)));
  due.replaceChildren(made('h2', 'Due back'), lists.due.length ? items : made('p', 'Nothing is due back.'));
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
  const show = async (lists) => {
    document.querySelector('#away-as-of').textContent = `As of ${sinceWords(Date.parse(lists.as_of)).replace('since ', '')}.`;
    showLists(lists);
    await showCars(lists);
  };
  let lists = await note('lists');
  if (lists) await show(lists);
  try {
    await houseProves();  // the cookie goes to nobody else
    const answer = await fetch('/away.json', { cache: 'no-store' });
    if (!answer.ok) return;
    lists = await answer.json();
    await setNote('lists', lists);
    await forgetDecided(lists);
    if (!document.querySelector('#away-room form').elements.amount.value) await show(lists);
  } catch {
    // out of reach: what is on the device stands there already
  }
})();
