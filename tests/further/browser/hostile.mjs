/** A notebook that tries to run or load something in its reader's browser by every way that a file has. */
export function hostileNotebook(server) {
  const hit = "globalThis.hit='run'";
  const html = [
    `<script>${hit}</script>`,
    `<img src=x onerror="${hit}">`,
    `<img src="${server}/img.png">`,
    `<a href="javascript:${hit}" class="lure">link</a>`,
    `<a href="data:text/html,<script>${hit}</script>" class="lure">link</a>`,
    `<svg onload="${hit}"><image href="${server}/svg.png"/></svg>`,
    `<svg><script>${hit}</script></svg>`,
    `<math><mtext><table><mglyph><style><img src=x onerror="${hit}"></style></mglyph></table></mtext></math>`,
    `<div style="background:url(${server}/style.png)">styled</div>`,
    `<style>@import url(${server}/import.css); body{background:url(${server}/body.png)}</style>`,
    `<iframe src="${server}/frame.html"></iframe><iframe srcdoc="<script>top.hit='run'</script>"></iframe>`,
    `<object data="${server}/object"></object><embed src="${server}/embed">`,
    `<form action="${server}/form"><button autofocus onfocus="${hit}">b</button></form>`,
    `<meta http-equiv="refresh" content="0;url=${server}/refresh"><base href="${server}/">`,
    `<link rel="stylesheet" href="${server}/link.css"><link rel="prefetch" href="${server}/prefetch">`,
    `<video src="${server}/video" autoplay onerror="${hit}"></video><audio src="${server}/audio"></audio>`,
    `<details open ontoggle="${hit}">x</details><input autofocus onfocus="${hit}"><marquee onstart="${hit}">m</marquee>`,
    `<noscript><p title="</noscript><img src=x onerror=${hit}>"></noscript>`,
    `<p id="figures">[]</p><p id="dark-colours">[]</p><p id="figure-0">x</p>`,
    `<table background="${server}/table.png"><tr><td onclick="${hit}">cell</td></tr></table>`,
    `</section></main></body><script>${hit}</script>`,
    `<!--><img src=x onerror="${hit}">-->`,
    `<textarea></textarea><img src=x onerror="${hit}"><xmp></xmp><title></title><template><img src=x onerror="${hit}"></template>`,
  ];
  const markdown = [
    ...html,
    `[link](javascript:${hit})`,
    `![picture](${server}/markdown.png)`,
    `![picture](javascript:${hit})`,
    `<javascript:${hit}>`,
    `[x]: javascript:${hit}\n\n[x]`,
    `$\\href{javascript:${hit}}{x} \\url{${server}/tex} \\includegraphics{${server}/tex.png} \\htmlClass{x}{y}$`,
    `$$</math><img src=x onerror="${hit}">$$`,
    '\uE0000\uE001',
  ];
  const text = `<a href="javascript:${hit}" class="lure">link</a><img src=x onerror="${hit}"><span style="background:url(${server}/span.png)">s</span></script><script>${hit}</script>`;
  const figures = [
    {
      data: [
        {
          x: [1, 2],
          y: [1, 2],
          name: text,
          text: [text, text],
          mode: 'markers+text',
          hovertemplate: text,
          customdata: [text, text],
        },
      ],
      layout: {
        title: { text },
        xaxis: { title: { text }, ticktext: [text, text], tickvals: [1, 2] },
        annotations: [{ text, x: 1, y: 1, hovertext: text, captureevents: true }],
        images: [{ source: `${server}/layout.png`, x: 0, y: 1, sizex: 1, sizey: 1 }],
        updatemenus: [{ buttons: [{ method: 'restyle', label: text, args: [{}] }] }],
        font: { family: `x; background:url(${server}/font.png)` },
        paper_bgcolor: `url(${server}/paper.png)`,
        sliders: [
          {
            currentvalue: { prefix: text },
            steps: [
              { label: text, method: 'restyle', args: [{ name: text }] },
              {
                label: text,
                method: 'relayout',
                args: [{ 'title.text': text, images: [{ source: `${server}/step.png` }] }],
              },
            ],
          },
        ],
      },
      config: { plotlyServerURL: server, showSendToCloud: true, displayModeBar: true, editable: true },
      frames: [{ data: [{ name: text }] }],
    },
    { data: [{ type: 'choropleth', locations: ['FRA'], z: [1] }], layout: { geo: { scope: 'europe' } } },
    { data: [{ type: 'scattermap', lat: [1], lon: [1] }], layout: { map: { style: `${server}/map.json` } } },
    { data: [{ type: 'image', source: `${server}/trace.png` }], layout: {} },
    { data: { length: 1, 0: {} }, layout: null },
    JSON.parse(
      '{"data":[{"y":[1,2],"__proto__":{"hit":1}}],"layout":{"__proto__":{"hit":1},"constructor":{"prototype":{"hit":1}}}}',
    ),
  ];
  const display = (data) => ({ output_type: 'display_data', metadata: {}, data });
  const outputs = [
    ...html.map((part) => display({ 'text/html': part, 'text/plain': part })),
    ...figures.map((figure) => display({ 'application/vnd.plotly.v1+json': figure, 'text/plain': text })),
    display({ 'application/javascript': hit, 'text/plain': text }),
    display({ 'text/javascript': hit }),
    display({
      'image/svg+xml': `<svg xmlns="http://www.w3.org/2000/svg" onload="${hit}"><script>${hit}</script><image href="${server}/in.png"/></svg>`,
    }),
    display({ 'image/png': `AAAA" onerror="${hit}` }),
    display({ 'text/latex': `$\\href{javascript:${hit}}{x}$` }),
    display({ 'text/markdown': markdown.join('\n\n') }),
    display({ 'application/vnd.unknown+json': { text }, [`x/"><img src=x onerror="${hit}">`]: text }),
    { output_type: 'stream', name: 'stdout', text },
    { output_type: 'error', ename: text, evalue: text, traceback: [text] },
  ];
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {
      title: text,
      halfmax: {
        status: text,
        source: { file: text, sha256: text },
        inputs: { [text]: { value: text, from: text } },
        tools: { node: text },
        filesRead: [{ path: text, sha256: text }],
      },
    },
    cells: [
      {
        cell_type: 'markdown',
        id: 'm',
        metadata: {},
        source: `# ${text}\n\n## Second\n\n${markdown.join('\n\n')}`,
        attachments: { 'a"><img src=x>': { 'image/png': `AAAA" onerror="${hit}` } },
      },
      { cell_type: 'code', id: 'c', metadata: {}, source: text, execution_count: 1, outputs },
      { cell_type: 'raw', id: 'r', metadata: {}, source: text },
    ],
  };
}
