import {
  axisTitle,
  bandTrace,
  darkColours,
  directLabel,
  grounds,
  labelInk,
  layoutFor,
  luminance,
  palette,
  panelsFor,
  showQuantities,
  showQuantity,
  showTable,
  sliderFigure,
  traceColour,
} from 'halfmax-notebook/display';
import { describe, expect, it } from 'vitest';

const contrast = (one: string, other: string): number => {
  const light = (colour: string): number =>
    luminance([1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16))) + 0.05;
  const [low, high] = [light(one), light(other)].sort((p, q) => p - q);
  return high! / low!;
};

describe('showTable', () => {
  it('escapes everything and uses neither style nor script', () => {
    const html = String(
      showTable({ '<b>': ['"><script>alert(1)</script>', "' onload='x"] }, { caption: '<i>&' })!['text/html'],
    );
    expect(html).not.toMatch(/<(?!\/?(table|caption|thead|tbody|tr|th|td)\b)/);
    expect(html.replaceAll(' style="text-align:left"', '')).not.toMatch(/style=/);
    expect(html).toContain('&lt;script&gt;');
    expect(html).toContain('<caption>&lt;i&gt;&amp;</caption>');
  });

  it('gives decimals as asked, by column or for all', () => {
    const table = { a: [1 / 3, 2], b: [1 / 3, 2] };
    expect(showTable(table, { digits: { a: 1 } })!['text/plain']).toContain('0.3  0.33333');
    expect(showTable(table, { digits: 2 })!['text/plain']).toContain('0.33  0.33');
  });

  it('leaves out the middle of a long table and says so', () => {
    const text = String(
      showTable({ n: Array.from({ length: 100 }, (_, i) => i) }, { maxRows: 4 })!['text/plain'],
    );
    expect(text.split('\n')).toEqual(['4 of 100 rows', '', ' n', '──', ' 0', ' 1', ' …', '98', '99']);
  });

  it('shows what is missing as a dash', () => {
    expect(showTable({ a: [1, Number.NaN, null] })!['text/plain']).toBe('a\n─\n1\n–\n–');
  });

  it.each([
    [() => showTable({ a: [1], b: [1, 2] }), 'columns of one length, got 1 and 2 in b'],
    [() => showTable({ a: [1] }, { digits: 21 }), 'digits to be a whole number from 0 to 20, got 21'],
    [() => showTable({ a: [1] }, { maxRows: 1 }), 'maxRows to be a whole number from 2, got 1'],
  ])('refuses misuse %#', (call, message) => {
    expect(call).toThrow(`showTable requires ${message}`);
  });
});

describe('showQuantity', () => {
  it('rounds by the rule of the guide', () => {
    // JCGM 100:2008, 7.2.2 and 7.2.6: m = 100.02147 g with u = 0.35 mg is stated as (100.02147 ± 0.00035) g.
    const shown = showQuantity('m', { value: 100.021471, standardUncertainty: 0.000351 }, 'g');
    expect(shown!['text/plain']).toBe('m = (100.02147 ± 0.00035) g');
  });

  it('keeps the full numbers for programs', () => {
    const quantity = { value: 3.27312, standardUncertainty: 0.01189, interval95: [3.25, 3.296] as const };
    const shown = showQuantity('FWHM', quantity, 'nm')!;
    expect(shown['application/vnd.halfmax.quantity+json']).toEqual({ name: 'FWHM', unit: 'nm', ...quantity });
    expect(shown['text/plain']).toBe('FWHM = (3.273 ± 0.012) nm  (95 %: 3.250 to 3.296 nm)');
  });

  it('says why there is no number', () => {
    expect(showQuantity('OD', { absent: 'too dark' })!['text/plain']).toBe('OD: – (too dark)');
  });

  it('refuses numbers that are none', () => {
    expect(() => showQuantity('x', { value: Number.NaN, standardUncertainty: 1 })).toThrow(
      'showQuantity requires',
    );
    expect(() => showQuantity('x', { value: 1, standardUncertainty: -1 })).toThrow('showQuantity requires');
    expect(() => showQuantity(' ', { absent: '' })).toThrow('requires a name');
  });

  it('sets several in a table', () => {
    const both = [
      { name: 'a', quantity: { value: 1, standardUncertainty: 0.1 }, unit: 'nm' },
      { name: 'b', quantity: { absent: 'why' } },
    ];
    const shown = showQuantities(both)!;
    expect(shown['text/plain']).toBe('a = (1.00 ± 0.10) nm\nb: – (why)');
    expect(shown['text/html']).toContain(
      '<td style="text-align:left">1.00 ± 0.10</td><td style="text-align:left">nm</td>',
    );
    expect(() => showQuantities([both[0]!, both[0]!])).toThrow('requires different names');
  });
});

describe('the style of figures', () => {
  it('keeps the published colours', () => {
    // Okabe & Ito 2008, RGB: blue 0,114,178; vermilion 213,94,0; bluish green 0,158,115; reddish purple 204,121,167;
    // orange 230,159,0; sky blue 86,180,233; yellow 240,228,66.
    const published = [
      [0, 114, 178],
      [213, 94, 0],
      [0, 158, 115],
      [204, 121, 167],
      [230, 159, 0],
      [86, 180, 233],
      [240, 228, 66],
    ];
    expect(
      palette.map((colour) => [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16))),
    ).toEqual(published);
    expect(traceColour(7)).toBe(palette[0]);
  });

  it('is read on both grounds: text 4.5 to 1, first three lines 3 to 1', () => {
    // WCAG 2.1: 1.4.3 for text, 1.4.11 for lines; black on white is 21 to 1 by its definition.
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    const dark = darkColours();
    for (const ground of [grounds.light, grounds.dark]) {
      expect(contrast(ground.ink, ground.paper)).toBeGreaterThan(7);
      expect(contrast(ground.quiet, ground.paper)).toBeGreaterThan(4.5);
    }
    for (const colour of palette) {
      expect(contrast(labelInk(colour), grounds.light.paper)).toBeGreaterThanOrEqual(4.5);
      expect(contrast(dark[labelInk(colour).toLowerCase()]!, grounds.dark.paper)).toBeGreaterThan(4.4);
    }
    for (const colour of palette.slice(0, 3))
      expect(contrast(colour, grounds.light.paper)).toBeGreaterThan(3);
  });

  it('puts units on axes', () => {
    expect(axisTitle({ quantity: 'Wavelength in air', unit: 'nm' })).toBe('Wavelength in air / nm');
    expect(axisTitle({ quantity: 'Radiance', unit: 'W m⁻²' })).toBe('Radiance / (W m⁻²)');
    expect(axisTitle({ quantity: 'Transmittance', unit: '1' })).toBe('Transmittance');
    expect(() => axisTitle({ quantity: ' ' })).toThrow('axisTitle requires a quantity');
    const layout = layoutFor({ x: { quantity: 'Tilt', unit: '°' }, y: { quantity: 'Counts' } });
    expect(layout).toMatchObject({
      xaxis: { title: { text: 'Tilt / °' } },
      annotations: [{ text: 'Counts' }],
    });
  });

  it('sets panels above each other, with the common axis below and a gap for their names', () => {
    const panels = [
      { quantity: 'T', share: 2 },
      { quantity: 'Residual', unit: 'nm' },
    ];
    const layout = panelsFor({ x: { quantity: 'a' }, panels, height: 484 }) as Record<
      string,
      { domain?: number[] }
    >;
    // 484 px less 52 above and 48 below are 384; less the gap of 44 px, 340 are shared 2 to 1.
    expect(layout['yaxis']!.domain![0]).toBeCloseTo(1 - (340 * 2) / 3 / 384, 12);
    expect(layout['yaxis2']!.domain![0]).toBeCloseTo(0, 12);
    expect(layout['yaxis2']!.domain![1]).toBeCloseTo(340 / 3 / 384, 12);
    expect(layout['xaxis']).toMatchObject({ anchor: 'y2' });
    expect(layout['annotations']).toMatchObject([{ text: 'Residual / nm' }, { text: 'T' }]);
    expect(() => panelsFor({ x: { quantity: 'a' }, panels: [] })).toThrow(
      'panelsFor requires at least 1 panel',
    );
  });

  it('sets a legend a line above the name of the upright axis, and a title above both', () => {
    const wishes = { x: { quantity: 'Wavelength' }, y: { quantity: 'Transmittance' }, legend: true };
    for (const [title, top] of [
      [{}, 72],
      [{ title: 'Filters' }, 96],
    ] as const) {
      const layout = layoutFor({ ...wishes, ...title, height: 400 });
      const margin = layout['margin'] as { t: number; b: number };
      const { y } = layout['legend'] as { y: number };
      expect(margin.t).toBe(top);
      // The name stands 8 px above the drawing and is about 20 px high.
      expect((y - 1) * (400 - margin.t - margin.b)).toBeCloseTo(28, 9);
    }
  });

  it('closes a band and breaks it where there is no number', () => {
    const band = bandTrace([1, 2, 3, 4, 5], [0, 0, Number.NaN, 0, 0], [1, 2, 3, 4, 5], { colour: '#0072B2' });
    expect(band['x']).toEqual([1, 2, 2, 1, 1, null, 4, 5, 5, 4, 4]);
    expect(band['y']).toEqual([1, 2, 0, 0, 1, null, 4, 5, 0, 0, 4]);
    expect(band['fillcolor']).toBe('rgba(0,114,178,0.22)');
    expect(() => bandTrace([1], [1], [1], { colour: '#0072B2' })).toThrow('bandTrace requires three arrays');
  });

  it('names a line where it stands, in an ink that can be read', () => {
    expect(directLabel({ text: 'B', x: 1, y: 2, colour: '#F0E442', side: 'above' })).toMatchObject({
      showarrow: false,
      yanchor: 'bottom',
      font: { color: labelInk('#F0E442') },
    });
  });

  it('works sliders by showing one of several sets of traces', () => {
    const trace = (name: string): object => ({ name, y: [1] });
    const figure = sliderFigure({
      quantity: 'Tilt',
      unit: '°',
      always: [trace('base') as never],
      steps: ['0', '5'].map((label) => ({ label, data: [trace(label) as never] })),
      layout: layoutFor({ x: { quantity: 'a' }, y: { quantity: 'b' } }),
      active: 1,
    });
    expect(figure.data.map(({ visible }) => visible)).toEqual([true, false, true]);
    expect(figure.layout).toMatchObject({
      sliders: [
        {
          active: 1,
          steps: [{ args: [{ visible: [true, true, false] }] }, { args: [{ visible: [true, false, true] }] }],
        },
      ],
    });
  });
});
