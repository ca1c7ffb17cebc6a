// Pairing: the code stands behind the # of the address, so that it is in no request line, no log and no history; what
// the house gives back so that it can prove itself later is kept here, apart from the cookie, which no script reads.
'use strict';
(() => {
  const form = document.querySelector('form[action="/pair"]');
  if (!form) return;
  const code = form.elements.code;
  const given = location.hash.slice(1);
  if (/^[0-9a-f]{16}$/.test(given)) {
    code.value = given;
    history.replaceState(null, '', '/pair');
    form.elements.device.focus();
  }
  const say = (words) => {
    let line = document.querySelector('.reason');
    if (!line) {
      line = document.createElement('p');
      line.className = 'reason';
      line.setAttribute('role', 'alert');
      form.before(line);
    }
    line.textContent = words;
  };
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    try {
      const answer = await fetch('/pair', {
        method: 'POST',
        headers: { Accept: 'application/json' },
        body: new URLSearchParams(new FormData(form)),
      });
      const told = await answer.json();
      if (!answer.ok) return say(told.message);
      localStorage.setItem('house', JSON.stringify({ device: told.device, key: told.key }));
      location.replace('/');
    } catch {
      say('The house is not reached.');
    }
  });
})();
