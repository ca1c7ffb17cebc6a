// A photo as it leaves this device: upright, 1,800 px at most on its longer side, JPEG, and without the marks that a
// camera writes into it (place, day, maker): what a canvas gives holds pixels alone. The house never decodes one.
const photoSide = 1800;

// Throws where this browser cannot read the picture: then the form stays as it is.
async function smallPhoto(file) {
  let whole;
  try {
    whole = await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    throw new Error(`the photo: ${file.type || 'a file'} that this browser cannot read was found, ` +
      'a JPEG, PNG or WebP was expected; take it again, or take it out and keep the rest');
  }
  const scale = Math.min(1, photoSide / Math.max(whole.width, whole.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(whole.width * scale));
  canvas.height = Math.max(1, Math.round(whole.height * scale));
  const ground = canvas.getContext('2d');
  ground.fillStyle = '#fff';  // JPEG knows nothing see-through
  ground.fillRect(0, 0, canvas.width, canvas.height);
  ground.drawImage(whole, 0, 0, canvas.width, canvas.height);
  whole.close();
  const blob = await new Promise((done) => canvas.toBlob(done, 'image/jpeg', 0.8));
  if (!blob) throw new Error('the photo: it could not be made small; take it again, or take it out and keep the rest');
  return blob;
}

// Begun as soon as the photo is there, so that keeping the entry does not wait for it.
const photosOf = new WeakMap();  // the field -> { file, small: Promise }
function photoOf(field) {
  const file = field && field.files[0];
  if (!file) return null;
  const known = photosOf.get(field);
  if (known && known.file === file) return known.small;
  const small = smallPhoto(file);
  small.catch(() => {});  // said where it is waited for
  photosOf.set(field, { file, small });
  return small;
}

// Its pixels are turned, not its place on the page: so the whole of it is reached by scrolling.
async function turned(picture, quarters) {
  const canvas = document.createElement('canvas');
  const lies = quarters % 2;
  canvas.width = lies ? picture.height : picture.width;
  canvas.height = lies ? picture.width : picture.height;
  const ground = canvas.getContext('2d');
  ground.translate(canvas.width / 2, canvas.height / 2);
  ground.rotate(quarters * Math.PI / 2);
  ground.drawImage(picture, -picture.width / 2, -picture.height / 2);
  return URL.createObjectURL(await new Promise((done) => canvas.toBlob(done, 'image/jpeg', 0.9)));
}

function photosGone(form) {
  for (const picture of form.querySelectorAll('img.photo')) picture.remove();
}
function watchPhotos() {
  for (const field of document.querySelectorAll('input[data-photo]'))
    field.addEventListener('change', async () => {
      const shown = field.parentElement.querySelector('img.photo');
      if (shown) shown.remove();
      const small = photoOf(field);
      if (!small) return;
      try {
        const picture = document.createElement('img');
        picture.className = 'photo';
        picture.alt = 'the photo as it will be kept';
        picture.src = URL.createObjectURL(await small);
        field.after(picture);
        const next = field.form.querySelector('input[type="text"]');  // the amount, with no further tap
        if (next && !next.value) next.focus();
      } catch (wrong) {
        sayIn(field.form, wrong.message);
      }
    });
  // The photo of a paper: a tap makes it whole, the button turns it.
  for (const pane of document.querySelectorAll('.pane')) {
    const picture = pane.querySelector('img');
    if (!picture) continue;
    const row = document.createElement('div');
    row.className = 'choices';
    const button = (words, done) => {
      const one = document.createElement('button');
      one.type = 'button';
      one.textContent = words;
      one.addEventListener('click', done);
      row.append(one);
    };
    let quarter = 0, kept;
    const larger = () => picture.classList.toggle('whole');
    button('Turn', async () => {
      const mine = quarter = (quarter + 1) % 4;
      kept = kept || await createImageBitmap(picture);
      const now = await turned(kept, mine);
      if (mine === quarter) picture.src = now;
    });
    button('Larger or smaller', larger);
    picture.addEventListener('click', larger);
    pane.before(row);
  }
}
