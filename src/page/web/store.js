// What this device keeps: in IndexedDB, written through to the disk ("strict") before anybody is told that it is kept.
//   entry   what was kept here and is not wholly in the book, in the order in which it was kept; `dayWas`: its day before
//           the house's clock was said to be right, `ahead`: how far the clock was before the house's by which another
//           device kept it
//   photo   their photos, apart, so that counting the entries reads no pictures
//   sent    what is in the book by now, for 30 days: should the book be restored from an older copy
//   note    by name: drafts, what was taken along, when the house was last reached
let opened;
let making;  // the change that makes the store, while it runs
// A page that the browser sets aside must not keep the store half made, or the next page waits for it for ever.
addEventListener('pagehide', () => {
  if (making) making.abort();
  if (opened) opened.then((base) => base.close(), () => {});
  opened = undefined;
});
function store() {
  opened ??= new Promise((done, failed) => {
    const asked = indexedDB.open('nonrunner', 1);
    // A browser that does not answer must not leave a form without a word: what was typed stays, and is tried again.
    let late = false;
    const patience = setTimeout(() => {
      late = true;
      opened = undefined;
      failed(new Error('the store of this browser does not answer; try again'));
    }, 8000);
    asked.onupgradeneeded = () => {
      making = asked.transaction;
      const entries = asked.result.createObjectStore('entry', { keyPath: 'order', autoIncrement: true });
      entries.createIndex('id', 'id', { unique: true });
      asked.result.createObjectStore('photo', { keyPath: 'id' });
      asked.result.createObjectStore('sent', { keyPath: 'id' });
      asked.result.createObjectStore('note');
    };
    asked.onsuccess = () => {
      making = undefined;
      clearTimeout(patience);
      if (late) return asked.result.close();
      asked.result.onversionchange = () => asked.result.close();
      done(asked.result);
    };
    asked.onerror = () => {
      making = undefined;
      clearTimeout(patience);
      opened = undefined;
      failed(asked.error);
    };
    asked.onblocked = () => failed(new Error('another tab holds an older store open; close it'));
  });
  return opened;
}

// All or nothing; resolves once it is on the disk, with what `work` gave.
async function write(stores, work) {
  const base = await store();
  return new Promise((done, failed) => {
    const change = base.transaction(stores, 'readwrite', { durability: 'strict' });
    let result;
    change.oncomplete = () => done(result && 'result' in result ? result.result : result);
    change.onabort = change.onerror = () => failed(change.error || new Error('not written'));
    result = work(change);
  });
}
async function read(name, ask) {
  const base = await store();
  return new Promise((done, failed) => {
    const asked = ask(base.transaction(name).objectStore(name));
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
}
const heldEntries = () => read('entry', (entries) => entries.getAll());
const note = (name) => read('note', (notes) => notes.get(name));
const setNote = (name, value) => write(['note'], (change) => change.objectStore('note').put(value, name));
const dropNote = (name) => write(['note'], (change) => change.objectStore('note').delete(name));

// Changes an entry that is still held; one that another tab has let go meanwhile does not come back by it.
function changeHeld(order, differently) {
  return write(['entry'], (change) => {
    const entries = change.objectStore('entry');
    const found = entries.get(order);
    found.onsuccess = () => found.result && entries.put({ ...found.result, ...differently });
  });
}
// Out of the outbox. `sent`: it is in the book, and stays here with its photo for 30 days; else it is gone.
function letGo(entry, sent) {
  return write(['entry', 'photo', 'sent'], (change) => {
    change.objectStore('entry').delete(entry.order);
    if (!sent) {
      change.objectStore('photo').delete(entry.id);
      return;
    }
    const { order, state, photo, ...kept } = entry;
    change.objectStore('sent').put({ ...kept, at: Date.now() });
  });
}

// 128 bits that nobody had before, as 32 hexadecimal digits.
const freshId = () =>
  [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');

// The day on this device's wall, not in Greenwich.
function dayHere(now = new Date()) {
  const two = (n) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
