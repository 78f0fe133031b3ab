import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { formatNotebook, type Notebook } from 'halfmax-notebook/notebook';
import { buildReport, sanitiseHtml } from 'halfmax-notebook/report';
import { afterAll, describe, expect, it } from 'vitest';
import { reportCommand } from '../../packages/halfmax-notebook/src/commands/report.js';
import type { Terminal } from '../../packages/halfmax-notebook/src/commands/terminal.js';
import { renderMarkdown } from '../../packages/halfmax-notebook/src/report/renderMarkdown.js';
import { safeFigure } from '../../packages/halfmax-notebook/src/report/safeFigure.js';

const silent: Terminal = { out: () => {}, error: () => {}, showsProgress: false };

const notebook = (cells: readonly object[], metadata: object = {}): Notebook =>
  ({ nbformat: 4, nbformat_minor: 5, metadata, cells }) as unknown as Notebook;
const markdown = (source: string): object => ({ cell_type: 'markdown', id: 'm', metadata: {}, source });
const code = (outputs: readonly object[], source = ''): object => ({
  cell_type: 'code',
  id: 'c',
  metadata: {},
  source,
  execution_count: 1,
  outputs,
});
const display = (data: object): object => ({ output_type: 'display_data', metadata: {}, data });
const report = (cells: readonly object[], metadata: object = {}): string =>
  buildReport([{ file: 'x.ipynb', notebook: notebook(cells, metadata) }], { title: 'T' });
const plotly = (data: readonly object[], layout: object = {}): object =>
  display({ 'application/vnd.plotly.v1+json': { data, layout }, 'text/plain': 'a figure' });

describe('sanitiseHtml', () => {
  it.each([
    '<script>alert(1)</script>',
    '<img src=x onerror=alert(1)>',
    '<img src="https://example.org/x.png">',
    '<img src="data:image/svg+xml;base64,PHN2Zz4=">',
    '<a href="javascript:alert(1)">x</a>',
    '<a href=" &#106;avascript:alert(1)">x</a>',
    '<a href="data:text/html,<script>1</script>">x</a>',
    '<a href="//example.org">x</a>',
    '<svg onload=alert(1)><script>1</script></svg>',
    '<math><mtext><img src=x onerror=alert(1)></mtext></math>',
    '<div style="background:url(https://example.org)">x</div>',
    '<style>@import "https://example.org"</style>',
    '<iframe src="https://example.org"></iframe>',
    '<object data="x"></object><embed src="x">',
    '<form action="https://example.org"><input name="a"><button>b</button></form>',
    '<meta http-equiv="refresh" content="0;url=https://example.org">',
    '<base href="https://example.org"><link rel="stylesheet" href="x">',
    '<p id="figures" class="plot">x</p>',
    '<details open ontoggle=alert(1)>x</details>',
    '<noscript><p title="</noscript><img src=x onerror=alert(1)>">',
    '<scr<script>ipt>alert(1)</script>',
  ])('leaves nothing to run or load of %s', (html) => {
    const safe = sanitiseHtml(html);
    expect(safe).not.toMatch(
      /<\/?(script|style|iframe|object|embed|form|input|button|meta|base|link|svg|math|noscript)\b/i,
    );
    expect(safe).not.toMatch(/<[^>]*\s(on\w+|style|id|action|class)=/i);
    expect(safe).not.toMatch(
      /(src|href)="?\s*(javascript|data:text|data:image\/svg|\/\/|https?:\/\/example\.org\/x)/i,
    );
  });

  it('keeps texts, tables, links to the web and pictures in the document', () => {
    const html =
      '<table><thead><tr><th scope="col" class="number">a</th></tr></thead><tbody><tr><td class="number">1</td></tr></tbody></table>';
    expect(sanitiseHtml(html)).toBe(html);
    expect(sanitiseHtml('<a href="https://example.org/">x</a>')).toBe(
      '<a href="https://example.org/" rel="noopener noreferrer">x</a>',
    );
    expect(sanitiseHtml('<img alt="p" src="data:image/png;base64,AAAA">')).toContain(
      'data:image/png;base64,AAAA',
    );
  });
});

describe('renderMarkdown', () => {
  it('sets formulas as MathML and leaves prices alone', () => {
    const html = renderMarkdown('Take $E = h\\nu$, at $5 or $6.\n\n$$\\frac{a}{b}$$');
    expect(html).toContain('<math');
    expect(html).toContain('<mfrac>');
    expect(html).toContain('at $5 or $6.');
  });

  it('cannot be brought to run something by way of a formula', () => {
    const html = renderMarkdown(
      '$\\href{javascript:alert(1)}{x}$ $\\includegraphics{https://example.org/a}$ $<img src=x onerror=y>$',
    );
    expect(html).not.toMatch(/<[^>]*(href|src|onerror)\s*=/i);
  });

  it('shows pictures that are attached, and no other', () => {
    const attached = { 'a.png': { 'image/png': 'AAAA' } };
    expect(renderMarkdown('![p](attachment:a.png)', attached)).toContain('src="data:image/png;base64,AAAA"');
    expect(renderMarkdown('![p](https://example.org/a.png) ![q](attachment:b.png)', attached)).not.toContain(
      '<img',
    );
  });
});

describe('safeFigure', () => {
  it('takes links, styles and attributes out of all texts', () => {
    const figure = safeFigure({
      data: [
        {
          y: [1],
          name: '<a href="javascript:alert(1)">x</a>',
          text: '<span style="background:url(https://e.org)">y</span>',
        },
      ],
      layout: {
        title: { text: '<b onclick=1>bold</b> a < b <<a>a href=x>z</a>' },
        images: [{ source: 'https://e.org' }],
      },
      config: { plotlyServerURL: 'https://e.org' },
    })!;
    const text = JSON.stringify(figure);
    expect(text).not.toMatch(/href|style|onclick|e\.org|<a/);
    expect(text).toContain('<b>bold</b> a < b');
  });

  it.each(['scattergl', 'surface', 'choropleth', 'scattermap', 'image', 'table'])(
    'leaves a trace of the kind %s to its still',
    (type) => {
      expect(safeFigure({ data: [{ type }], layout: {} })).toBeNull();
    },
  );

  it('is done in time with tags inside tags inside tags', () => {
    const text = `${'<'.repeat(20_000)}${'a>'.repeat(20_000)}`;
    const figure = safeFigure({ data: [{ y: [1], name: text }], layout: { height: 1e9 } })!;
    expect(figure.data[0]!['name']).not.toContain('<');
    expect(figure.layout['height']).toBe(2000);
    expect(safeFigure({ data: [{ name: 'T <peak and rest' }], layout: {} })!.data[0]!['name']).toBe(
      'T <peak and rest',
    );
  });

  it('takes only harmless steps of sliders', () => {
    const slider = (method: string): object => ({
      steps: [
        { method, label: 'a', args: [] },
        { method, label: 'b', args: [] },
      ],
    });
    const of = (method: string): number =>
      safeFigure({ data: [], layout: { sliders: [slider(method)] } })!.sliders.length;
    expect([of('restyle'), of('update'), of('newPlot'), of('toImage')]).toEqual([1, 1, 0, 0]);
  });
});

describe('buildReport', () => {
  it('gives the same bytes again', () => {
    const cells = [markdown('# A'), code([plotly([{ y: [1, 2] }])])];
    expect(report(cells)).toBe(report(cells));
  });

  it('forbids the network and allows its two scripts by their digests', () => {
    const html = report([code([plotly([{ y: [1, 2] }])])]);
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)![1]!;
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toMatch(/unsafe-eval|script-src[^;]*unsafe|https?:|\*/);
    const scripts = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map(([, script]) => script!);
    expect(scripts.length).toBe(2);
    for (const script of scripts)
      expect(policy).toContain(`'sha256-${createHash('sha256').update(script).digest('base64')}'`);
  });

  it('carries no script at all where there is no figure', () => {
    const html = report([
      markdown('# A'),
      code([{ output_type: 'stream', name: 'stdout', text: '<script>1</script>' }]),
    ]);
    expect(html).not.toContain('<script');
    expect(html).toContain("script-src 'none'");
    expect(html.length).toBeLessThan(20_000);
  });

  it('keeps figures as data that cannot end their element', () => {
    const html = report([code([plotly([{ y: [1], name: '</script><script>alert(1)</script>' }])])]);
    expect(html).not.toContain('<script>alert');
    expect(html.match(/<\/script>/g)!.length).toBe(4);
  });

  it('says where it comes from, and whether the run failed', () => {
    const run = {
      halfmax: { status: 'failed', randomSeed: 7, inputs: { seed: { value: 7, from: 'command' } } },
    };
    const html = report([markdown('# A')], run);
    expect(html).toContain('x.ipynb');
    expect(html).toContain('did not run to its end');
    expect(html).toContain('seed = 7 (given)');
    expect(report([markdown('# A')])).toContain('does not say how it was run');
  });

  it('orders headings, leads to them, and folds the code', () => {
    const html = report([markdown('# A\n\n#### deep'), code([], 'let a = "<b>";'), markdown('## B')]);
    expect([...html.matchAll(/<h([1-6])/g)].map(([, level]) => level).join('')).toBe('12233');
    for (const [, id] of html.matchAll(/href="#([^"]+)"/g)) expect(html).toContain(`id="${id}"`);
    expect(html).toContain(
      '<details class="code"><summary>Code of cell 2 (c)</summary><pre><code>let a = &quot;&lt;b&gt;&quot;;',
    );
  });

  it('shows text for what must not run', () => {
    const html = report([
      code([
        display({ 'application/javascript': 'alert(1)', 'text/plain': 'js' }),
        display({ 'text/html': '<script>alert(1)</script>' }),
        display({ 'image/svg+xml': '<svg onload="alert(1)"/>' }),
        { output_type: 'error', ename: 'E', evalue: '<b>', traceback: ['\u001b[31m<b>\u001b[0m'] },
      ]),
    ]);
    expect(html).not.toContain('alert(1)');
    expect(html).toContain('<pre class="error">&lt;b&gt;</pre>');
    expect(html).toContain('src="data:image/svg+xml;base64,');
  });
});

describe('the command', () => {
  const folder = mkdtempSync(join(tmpdir(), 'report-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  const source = join(folder, 'a.ipynb');
  writeFileSync(source, formatNotebook(notebook([markdown('# A')])));

  it('writes one file and says which', async () => {
    const target = join(folder, 'out', 'a.html');
    let said = '';
    const code = await reportCommand([source, '--out', target, '--title', 'Mine'], {
      ...silent,
      out: (text) => (said += text),
    });
    expect(code).toBe(0);
    expect(said).toContain('a.html: 1 notebook, 0');
    const html = readFileSync(target, 'utf8');
    expect(html).toContain('<title>Mine</title>');
    expect(html).toContain(createHash('sha256').update(readFileSync(source)).digest('hex'));
  });

  it.each([
    [[], /NOTEBOOK: no notebook given/],
    [[source], /--out: is missing/],
    [[source, '--out', 'a.pdf'], /"a\.pdf" does not end in \.html/],
    [[join(folder, 'none.ipynb'), '--out', 'a.html'], /none\.ipynb: does not exist/],
    [[source, '--out', join(source, 'a.html')], /is a file, not a folder|cannot be written/],
    [[source, '--theme', 'x'], /--theme: is not an option of this command/],
  ])('refuses %j', async (args, message) => {
    await expect(reportCommand(args, silent)).rejects.toThrow(message);
  });
});
