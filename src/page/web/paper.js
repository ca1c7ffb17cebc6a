// A paper while it is typed: what its lines, tax, shipping and discount come to beside the total that is printed on
// it, counted in whole smallest coins, and shown only as the difference of these given numbers. What is booked is
// computed by the house.

// "61.37" with 2 digits behind the point: 6137n, "1,450.00": 145000n; null where it is no amount.
function coins(text, digits) {
  if (/^\s*-?\d{1,3}(,\d{3})+\.\d+\s*$/.test(text)) text = text.replaceAll(',', '');
  const found = /^\s*(-?)(\d+)(?:[.,](\d*))?\s*$/.exec(text);
  if (!found || (found[3] || '').length > digits) return null;
  const whole = BigInt(found[2] + (found[3] || '').padEnd(digits, '0'));
  return found[1] ? -whole : whole;
}
function shownCoins(amount, digits) {
  const minus = amount < 0n;
  const text = String(minus ? -amount : amount).padStart(digits + 1, '0');
  return (minus ? '-' : '') + (digits ? `${text.slice(0, -digits)}.${text.slice(-digits)}` : text);
}

// Pieces times price as thousandths of a piece times coins; a half coin goes to the even one, as in the book.
function piecesTimes(pieces, price) {
  const product = pieces * price;
  const half = 500n;
  const sign = product < 0n ? -1n : 1n;
  const size = product * sign;
  const whole = size / 1000n;
  const rest = size % 1000n;
  return sign * (rest > half || (rest === half && whole % 2n === 1n) ? whole + 1n : whole);
}

// What the form's lines come to; `wrong` names the first field that is no number.
function paperSum(form, digits) {
  let sum = 0n;
  let any = false;
  const amount = (name) => {
    const field = form.elements[name];
    if (!field || !field.value.trim()) return null;
    const found = coins(field.value, digits);
    if (found === null) throw new Error(`${field.value} is no amount`);
    return found;
  };
  const pieces = (name) => {
    const field = form.elements[name];
    if (!field || !field.value.trim()) return 1000n;
    const found = coins(field.value, 3);
    if (found === null) throw new Error(`${field.value} is no number of pieces`);
    return found;
  };
  for (let n = 1; form.elements[`line.${n}.what`]; ++n) {
    const whole = amount(`line.${n}.amount`);
    const price = amount(`line.${n}.unit`);
    const core = amount(`line.${n}.core`);
    const qty = pieces(`line.${n}.qty`);
    if (whole !== null) sum += whole;
    else if (price !== null) sum += piecesTimes(qty, price);
    if (core !== null) sum += piecesTimes(qty, core);
    any ||= whole !== null || price !== null;
  }
  for (const name of ['tax', 'shipping']) sum += amount(name) ?? 0n;
  sum -= amount('discount') ?? 0n;
  return { sum, total: amount('total'), any };
}

function differenceWords(form, digits) {
  try {
    const { sum, total, any } = paperSum(form, digits);
    if (!any) return '';
    if (total === null) return `The lines come to ${shownCoins(sum, digits)}.`;
    if (sum === total) return `The lines come to ${shownCoins(sum, digits)}, as printed.`;
    return `The lines come to ${shownCoins(sum, digits)}, printed is ${shownCoins(total, digits)}: ` +
      `${shownCoins(sum > total ? sum - total : total - sum, digits)} too ${sum > total ? 'much' : 'little'}.`;
  } catch (wrong) {
    return wrong.message + '.';
  }
}

// One more line like the last one, empty but for its car.
const linesOf = (form) => [...form.querySelectorAll('fieldset.line')];
function addLine(form) {
  const lines = linesOf(form);
  const number = lines.length + 1;
  if (!lines.length || number > 60) return null;
  const line = lines.at(-1).cloneNode(true);
  for (const field of line.querySelectorAll('[name]')) {
    field.name = field.name.replace(/^line\.\d+\./, `line.${number}.`);
    if (field.type === 'checkbox') field.checked = field.defaultChecked = false;
    else if (field.tagName === 'SELECT') field.value = form.elements[field.name.replace(String(number), String(number - 1))].value;
    else field.value = field.defaultValue = '';
  }
  line.querySelector('legend').textContent = `line ${number}`;
  for (const more of line.querySelectorAll('details')) {
    more.open = false;
    more.querySelector('summary').textContent = `More of line ${number}`;
  }
  lines.at(-1).after(line);
  return line;
}
// Beside what a line is filled in with: its car.
const isTyped = (line) => [...line.querySelectorAll('input')].some((each) =>
  (each.type === 'checkbox' ? each.checked : each.type === 'text' && each.value.trim()));
function linesUpTo(form, fields) {
  const most = Math.max(0, ...[...fields.keys()].map((name) => Number((/^line\.(\d+)\./.exec(name) || [])[1] || 0)));
  while (linesOf(form).length < most && addLine(form));
}
function watchLines(form) {
  for (const field of form.querySelectorAll('[data-like]')) {
    const list = form.elements[field.dataset.like].cloneNode(true);
    if (!list.options) break;
    list.name = field.name;
    for (const option of list.options) option.defaultSelected = option.selected = option.value === field.value;
    if (list.value !== field.value) list.add(new Option(field.value, field.value, true, true), 0);
    field.replaceWith(list);
  }
  // Once something stands in the last line there is one more.
  form.addEventListener('input', ({ target }) => {
    const lines = linesOf(form);
    const at = lines.findIndex((line) => line.contains(target));
    // The lines behind it that are still empty are of the same car.
    if (at >= 0 && target.tagName === 'SELECT')
      for (const line of lines.slice(at + 1).filter((each) => !isTyped(each))) line.querySelector('select').value = target.value;
    if (at >= 0 && at === lines.length - 1 && isTyped(lines[at])) addLine(form);
  });
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'quiet';
  button.textContent = 'One more line';
  button.addEventListener('click', () => {
    const line = addLine(form);
    if (line) line.querySelector('input').focus();
  });
  const last = linesOf(form).at(-1);
  if (last) last.after(button);
}

function watchPapers() {
  for (const form of document.querySelectorAll('form[data-paper]')) {
    watchLines(form);
    const digits = Number(form.dataset.paper || 2);
    const line = document.createElement('p');
    line.className = 'difference';
    line.setAttribute('role', 'status');
    const last = [...form.querySelectorAll('button')].pop();
    form.insertBefore(line, last && last.parentElement === form ? last : null);
    const show = () => {
      const words = differenceWords(form, digits);
      if (line.textContent !== words) line.textContent = words;
      line.hidden = !words;
    };
    form.addEventListener('input', show);
    show();
  }
}

// Enter goes to the next field, as on a till; on the last one and on a button it keeps the form.
function watchEnter() {
  document.addEventListener('keydown', (event) => {
    const field = event.target;
    if (event.key !== 'Enter' || event.isComposing || !field.form || !field.form.hasAttribute('data-paper')) return;
    if (field.tagName !== 'INPUT' && field.tagName !== 'SELECT') return;
    const fields = [...field.form.elements].filter((each) =>
      each.type !== 'hidden' && each.type !== 'button' && !each.disabled && each.tabIndex >= 0 && each.tagName !== 'FIELDSET' &&
      !each.closest('details:not([open])') && each.getClientRects().length > 0);
    // At the head of an empty line, with none but such behind it: on to what stands under the lines.
    const line = field.closest('fieldset.line');
    const rest = line ? linesOf(field.form).slice(linesOf(field.form).indexOf(line)) : [];
    const isOver = line && field === line.querySelector('input') && !rest.some(isTyped);
    const next = fields[fields.indexOf(field) + 1 + (isOver ? fields.filter((each) => rest.some((one) => one.contains(each))).length - 1 : 0)];
    if (!next) return;
    event.preventDefault();
    next.focus();
    if (next.select) next.select();
  });
}
