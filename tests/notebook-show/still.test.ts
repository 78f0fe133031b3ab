import { layoutFor, showFigure } from 'halfmax-notebook/display';
import type { Output } from 'halfmax-notebook/notebook';
import { addStills, drawStill, drawSvg, stillThread } from 'halfmax-notebook/still';
import { describe, expect, it } from 'vitest';
import { textWidth } from '../../packages/halfmax-notebook/src/still/figureFonts.js';
import { pathLength, pathPoints, pointAlong } from '../../packages/halfmax-notebook/src/still/pathPoints.js';

const axes = { x: { quantity: 'Wavelength', unit: 'nm' }, y: { quantity: 'Transmittance' } };
const line = { data: [{ x: [1, 2, 3], y: [0.1, 0.9, 0.2], name: 'one' }], layout: layoutFor(axes) };
const map = {
  data: [
    {
      type: 'heatmap',
      z: [
        [1, 2],
        [3, 4],
      ],
    },
  ],
  layout: layoutFor(axes),
};
const texts = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([\s\S]*?)<\/text>/g)].map(([, text]) => text!.replace(/<[^>]*>/g, ''));

describe('drawStill', () => {
  it('gives the same bytes again, whatever was drawn in between', () => {
    const first = drawStill(line);
    const between = drawStill(map);
    const again = drawStill(line);
    expect(again.svg).toBe(first.svg);
    expect(Buffer.compare(again.png, first.png)).toBe(0);
    expect(drawStill(map).svg).toBe(between.svg);
  });

  it('writes the names and numbers of the axes', () => {
    const found = texts(drawSvg(line));
    expect(found).toEqual(
      expect.arrayContaining(['Wavelength / nm', 'Transmittance', '0.2', '0.8', '1.5', '3']),
    );
  });

  it('draws arrows, legends in full, and colour bars with their numbers', () => {
    const svg = drawSvg({
      data: [
        { y: [1, 2], name: 'a name of some length' },
        { y: [2, 1], name: 'second' },
      ],
      layout: layoutFor({
        ...axes,
        legend: true,
        annotations: [{ x: 1, y: 2, text: 'there', ax: -90, ay: 40 }],
      }),
    });
    expect(texts(svg)).toEqual(expect.arrayContaining(['a name of some length', 'second', 'there']));
    const clip = [...svg.matchAll(/<clipPath id="legend[^>]*><rect width="(\d+)"/g)].map(([, width]) =>
      Number(width),
    );
    for (const width of clip) expect(width).toBeGreaterThan(textWidth('a name of some length', 13));
    const arrow = svg.slice(svg.indexOf('annotation-arrow-g'));
    expect(arrow).toMatch(/<path d="M[^"]*Z?"[^>]*fill/);
    expect(texts(drawSvg(map))).toEqual(expect.arrayContaining(['1.5', '2.5', '3.5']));
  });

  it('leaves out the slider and its room', () => {
    const layout = {
      ...line.layout,
      height: 490,
      margin: { b: 118 },
      meta: { sliderHeight: 70 },
      sliders: [{ steps: [{}, {}] }],
    };
    const svg = drawSvg({ ...line, layout });
    expect(svg).toContain('height="420"');
    expect(svg).not.toContain('slider-group');
  });

  it('reads no file that a figure names', () => {
    const picture = (source: string): string =>
      drawSvg({ ...line, layout: { ...line.layout, images: [{ source, x: 0, y: 1, sizex: 1, sizey: 1 }] } });
    expect(picture('file:///usr/share/pixmaps/x.png')).not.toContain('file:');
    expect(picture('https://example.org/x.png')).not.toContain('example.org');
    expect(picture('data:image/svg+xml;base64,AAAA')).not.toContain('svg+xml');
    expect(picture('data:image/png;base64,AAAA')).toContain('data:image/png;base64,AAAA');
  });

  it('refuses sizes and figures that cannot be', () => {
    expect(() => drawSvg({ ...line, layout: { width: 1e6 } })).toThrow(
      'requires a width from 10 to 4000 px, got 1000000',
    );
    expect(() => drawSvg({ data: [null as never] })).toThrow(RangeError);
  });

  it('touches nothing global', () => {
    expect(Object.keys(globalThis)).not.toEqual(expect.arrayContaining(['document']));
    expect(() => (globalThis as { window?: unknown }).window).not.toThrow();
    expect((globalThis as { window?: unknown }).window).toBeUndefined();
  });
});

describe('showFigure', () => {
  it('asks for no responsive figure', () => {
    // Seen in JupyterLab 4.6 with plotly 7.1 of Python: such a figure falls to a height of 0 when its slider moves.
    const { config } = showFigure({ data: [{ y: [1, 2] }] })!['application/vnd.plotly.v1+json'] as {
      config: object;
    };
    expect(config).not.toHaveProperty('responsive');
  });

  it('holds plain data with six digits, a still and a caption', () => {
    const shown = showFigure({
      data: [{ x: Float64Array.of(1, 2, 3), y: [1 / 3, Number.NaN, Infinity], when: new Date(0) }],
      layout: layoutFor({ x: { quantity: 'a' }, y: { quantity: 'b' } }),
      caption: 'Three points.',
    })!;
    const figure = shown['application/vnd.plotly.v1+json'] as { data: object[] };
    expect(figure.data[0]).toEqual({
      x: [1, 2, 3],
      y: [0.333333, null, null],
      when: '1970-01-01T00:00:00.000Z',
    });
    expect(JSON.parse(JSON.stringify(figure))).toEqual(figure);
    expect(shown['text/plain']).toBe('Three points.');
    expect(String(shown['image/png']).startsWith('iVBORw0KGgo')).toBe(true);
  });

  it('holds the style of those kinds of traces alone that it has', () => {
    const styled = (figure: object): string[] => {
      const shown = showFigure(figure as never)!['application/vnd.plotly.v1+json'];
      const { template } = (shown as { layout: { template?: { data: object } } }).layout;
      return Object.keys(template?.data ?? {});
    };
    expect(styled(line)).toEqual([]);
    expect(styled(map)).toEqual(['heatmap']);
    expect(styled({ ...line, layout: { template: { data: { scatter: [{}], bar: [{}] } } } })).toEqual([
      'scatter',
    ]);
  });

  it('leaves the still to the runner where it is told to', () => {
    process.env['HALFMAX_STILLS'] = 'runner';
    try {
      expect(showFigure({ data: [{ y: [1, 2] }] })).not.toHaveProperty('image/png');
      // What the runner could not draw is refused where it is shown, as it is without a runner.
      expect(() => showFigure({ data: [{ type: 'scattergl', y: [1] }] })).toThrow('got scattergl');
      expect(() => showFigure({ data: [{ y: [1] }], layout: { width: 5000 } })).toThrow('width from 10');
    } finally {
      delete process.env['HALFMAX_STILLS'];
    }
  });

  it('refuses what cannot be drawn without a browser, and what is no data', () => {
    expect(() => showFigure({ data: [{ type: 'scattergl', y: [1] }] })).toThrow(
      /traces of the kinds .*, got scattergl/,
    );
    expect(() => showFigure({ data: [] })).toThrow('at least 1 trace');
    const circle: Record<string, unknown> = {};
    circle['self'] = circle;
    expect(() => showFigure({ data: [circle] })).toThrow('circle of references');
    expect(() => showFigure({ data: [{ y: [1n] }] })).toThrow('got a bigint');
  });
});

describe('addStills', () => {
  it('adds the picture that showFigure would have drawn, and leaves alone what it cannot draw', async () => {
    process.env['HALFMAX_STILLS'] = 'runner';
    const bare = showFigure(line)!;
    delete process.env['HALFMAX_STILLS'];
    const output = (data: object): object => ({ output_type: 'display_data', metadata: {}, data });
    const other = output({ 'application/vnd.plotly.v1+json': { data: [{ type: 'mesh3d' }] } });
    const notebook = {
      nbformat: 4,
      nbformat_minor: 5,
      metadata: {},
      cells: [
        {
          cell_type: 'code',
          id: 'a',
          metadata: {},
          source: '',
          execution_count: 1,
          outputs: [output(bare), other],
        },
      ],
    };
    const [cell] = (await addStills(notebook as never)).cells as unknown as (typeof notebook.cells)[number][];
    expect(cell!.outputs[0]).toEqual(output(showFigure(line)!));
    expect(cell!.outputs[1]).toEqual(other);
  });
});

describe('stillThread', () => {
  it('draws beside this thread what showFigure would have drawn, and hands back the rest as it is', async () => {
    const shown = showFigure(line)!;
    const { 'image/png': _, ...bare } = shown;
    const output = (data: object): Output => ({
      output_type: 'display_data',
      metadata: {},
      data: { ...data },
    });
    const text: Output = { output_type: 'stream', name: 'stdout', text: 'a' };
    const other = output({ 'application/vnd.plotly.v1+json': { data: [{ type: 'mesh3d' }] } });
    const thread = stillThread({ ms: 60_000, memoryMb: 1000 });
    try {
      expect(await thread.withStills([text])).toEqual([text]);
      const [first, second] = await Promise.all([
        thread.withStills([text, output(bare), other]),
        thread.withStills([output(bare)]),
      ]);
      expect(first).toEqual([text, output(shown), other]);
      expect(second).toEqual([output(shown)]);
    } finally {
      thread.end();
    }
  });

  it('tells a fault of one figure to nobody else', async () => {
    const { 'image/png': _, ...bare } = showFigure(line)!;
    const output = (data: object): Output => ({
      output_type: 'display_data',
      metadata: {},
      data: { ...data },
    });
    const broken = output({ 'application/vnd.plotly.v1+json': { data: [{ y: [1] }], frames: 5 } });
    const thread = stillThread({ ms: 60_000, memoryMb: 1000 });
    try {
      const [bad, good] = await Promise.allSettled([
        thread.withStills([broken]),
        thread.withStills([output(bare)]),
      ]);
      expect(bad.status).toBe('rejected');
      expect(good).toMatchObject({ status: 'fulfilled', value: [output(showFigure(line)!)] });
    } finally {
      thread.end();
    }
  });

  it('says so where a drawing takes too long, and draws no more once it is ended', async () => {
    const { 'image/png': _, ...bare } = showFigure(line)!;
    const output: Output = { output_type: 'display_data', metadata: {}, data: bare };
    const hasty = stillThread({ ms: 1, memoryMb: 1000 });
    const thread = stillThread({ ms: 60_000, memoryMb: 1000 });
    try {
      await expect(hasty.withStills([output])).rejects.toThrow('it took more than 0.001 s');
      const drawn = thread.withStills([output]);
      const behind = thread.withStills([output]);
      thread.end();
      await expect(drawn).rejects.toThrow('its thread was ended');
      await expect(behind).rejects.toThrow('its thread was ended');
      await expect(thread.withStills([output])).rejects.toThrow('its thread was ended');
    } finally {
      hasty.end();
      thread.end();
    }
  });
});

describe('what stills are made of', () => {
  it('texts have the widths of the font', () => {
    // Noto Sans 2.015, table hmtx (units of 1/1000): space 260, zero 572, W 930, i 258; read with fonttools 4.38.
    expect(textWidth('0 Wi', 1000)).toBeCloseTo(572 + 260 + 930 + 258, 9);
    expect(textWidth('\u200b', 10)).toBe(0);
  });

  it('paths are read point by point, absolute and relative', () => {
    expect(pathPoints('M1,2L4,6h3v-1Z')).toEqual([
      [1, 2],
      [4, 6],
      [7, 6],
      [7, 5],
    ]);
    expect(pathPoints('m1 1l2-1a5,5 0 0 1 10,0')).toEqual([
      [1, 1],
      [3, 0],
      [13, 0],
    ]);
    expect(pathLength('M0,0L3,4L3,10')).toBe(11);
    expect(pointAlong('M0,0L3,4L3,10', 7)).toEqual([3, 6]);
  });
});
