/**
 * The script of the report: draws the figures, follows light and dark, works the sliders.
 *
 * It is the same text in every report, so that the page can name its digest; what differs is data.
 */
export const pageScript: string = `'use strict';
(() => {
  const read = (id) => JSON.parse(document.getElementById(id).textContent);
  const figures = read('figures');
  const darkFor = read('dark-colours');
  const query = window.matchMedia('(prefers-color-scheme: dark)');
  const faded = Object.keys(darkFor).filter((key) => key.startsWith('rgba('));
  const darkColour = (text) => {
    const known = darkFor[text.toLowerCase()];
    if (known !== undefined) return known;
    const start = faded.find((key) => text.replaceAll(' ', '').startsWith(key));
    return start === undefined ? text : darkFor[start] + text.replaceAll(' ', '').slice(start.length);
  };
  const darkened = (value) => {
    if (typeof value === 'string') return darkColour(value);
    if (Array.isArray(value)) return typeof value[0] === 'number' ? value : value.map(darkened);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, darkened(part)]));
  };
  const ground = { paper_bgcolor: '#ffffff', plot_bgcolor: '#ffffff' };
  const inTheme = ({ data, layout }) => {
    const font = { color: '#1f2328', ...layout.font };
    const whole = { data, layout: { ...ground, ...layout, font, autosize: true, width: undefined } };
    if (Array.isArray(layout.annotations))
      whole.layout.annotations = layout.annotations.map((note) => ({ arrowcolor: '#5b626b', ...note }));
    return query.matches ? darkened(whole) : structuredClone(whole);
  };
  const config = { displayModeBar: false, responsive: true, displaylogo: false };
  const places = figures.map((_, number) => document.getElementById('figure-' + number));
  const seen = figures.map(() => new Map());
  const applyStep = (number, slider, step) => {
    const { method, args } = figures[number].sliders[slider].steps[step];
    if (method === 'skip') return;
    const values = query.matches ? darkened(args) : structuredClone(args);
    window.Plotly[method](places[number].querySelector('.plot'), ...values);
  };
  const draw = (number) => {
    const place = places[number];
    place.classList.add('drawn');
    const { data, layout } = inTheme(figures[number]);
    return window.Plotly.react(place.querySelector('.plot'), data, layout, config)
      .then(() => {
        for (const [slider, step] of seen[number]) applyStep(number, slider, step);
      })
      .catch(() => place.classList.remove('drawn'));
  };
  const drawn = new Set();
  const observer = new IntersectionObserver(
    (entries) => {
      for (const { isIntersecting, target } of entries) {
        const number = places.indexOf(target);
        if (!isIntersecting || drawn.has(number)) continue;
        drawn.add(number);
        observer.unobserve(target);
        draw(number);
      }
    },
    { rootMargin: '600px' },
  );
  for (const place of places) observer.observe(place);
  query.addEventListener('change', () => {
    for (const number of drawn) draw(number);
  });
  document.addEventListener('input', ({ target }) => {
    if (!(target instanceof HTMLInputElement) || target.dataset.slider === undefined) return;
    const [number, slider, step] = [target.dataset.figure, target.dataset.slider, target.value].map(Number);
    seen[number].set(slider, step);
    const text = figures[number].sliders[slider].steps[step].label + target.dataset.suffix;
    target.parentElement.querySelector('output').textContent = text;
    target.setAttribute('aria-valuetext', text);
    applyStep(number, slider, step);
  });
})();
`;
