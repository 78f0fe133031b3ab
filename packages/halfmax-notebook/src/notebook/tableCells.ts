const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  nbsp: ' ',
  '#39': "'",
};

/**
 * The cells of the tables in a piece of HTML, as texts.
 *
 * @param html - an output; what is not in a table is left out
 * @returns rows of cells, of all tables one after the other; empty where there is no table
 */
export function tableCells(html: string): string[][] {
  const rows: string[][] = [];
  for (const [, row = ''] of html.matchAll(/<tr\b[^>]*>([\s\S]*?)(?=<\/tr>|<tr\b|<\/table>|$)/gi))
    rows.push(
      [...row.matchAll(/<t[hd]\b[^>]*>([\s\S]*?)(?=<\/t[hd]>|<t[hd]\b|$)/gi)].map(([, cell]) =>
        plainText(cell!),
      ),
    );
  return rows;
}

/**
 * The text of a piece of HTML.
 *
 * @param html - with tags and entities
 * @returns without them, runs of blanks as one
 */
export function plainText(html: string): string {
  return html
    .replace(/<[^>]*>/g, ' ')
    .replace(/&(#39|[a-z]+);/g, (whole, name: string) => ENTITIES[name] ?? whole)
    .replace(/\s+/g, ' ')
    .trim();
}
