// How long the clock has been running, counted on from when it was switched on.
function lastedWords(since, now = Date.now()) {
  const minutes = Math.max(0, Math.floor((now - since) / 60000));
  const hours = Math.floor(minutes / 60);
  // A figure and its unit stay on one line.
  return (hours ? `${hours} h ${minutes % 60} min` : `${minutes} min`).replaceAll(' ', '\u00a0');
}
// "1.25": half a hundredth up, at least a hundredth, as the book counts a clock.
function hoursBetween(since, until) {
  const hundredths = Math.max(1, Math.floor((until - since) / 36000 + 0.5));
  return `${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, '0')}`;
}
function watchClock() {
  const show = () => {
    for (const each of document.querySelectorAll('time[data-since]')) {
      const since = Date.parse(each.dateTime);
      if (since) each.textContent = lastedWords(since);
    }
  };
  show();
  setInterval(show, 20000);
}
