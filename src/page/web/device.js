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
}
window.showDevice = showDevice;
showHeld();
