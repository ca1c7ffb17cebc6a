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
  // Where a warning of the browser was clicked away it keeps nothing of the page, and takes no worker either: by that
  // it is known. Such a device is paired only when its person knows that there is no page away from home.
  const kept = location.protocol !== 'https:' ? Promise.resolve(true)
    : navigator.serviceWorker.register('/worker.js').then(() => true, () => false);
  let onlyAtHome = null;
  const mayPair = async () => {
    if (await kept) return true;
    if (onlyAtHome) return onlyAtHome.checked;
    onlyAtHome = document.createElement('input');
    onlyAtHome.type = 'checkbox';
    const label = document.createElement('label');
    label.append(onlyAtHome, ' only at home: away from it there is no page on this device');
    form.querySelector('button').before(label);
    return false;
  };
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    if (!(await mayPair())) {
      say('This browser does not trust the authority of the shop, and keeps nothing of this page. Install the authority, or say that it shall be only at home.');
      return;
    }
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
