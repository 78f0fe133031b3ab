import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { withoutBlocks } from './fencedBlocks.js';

/**
 * The relative links, pictures and repository paths of a Markdown file that lead nowhere.
 *
 * A path in backticks counts if it starts with one of the top-level folders and holds no placeholder.
 *
 * @param root - top of the checkout
 * @param file - the Markdown file, relative to the top
 * @returns how many targets were looked at, and those that are missing
 */
export function deadLinks(root: string, file: string): { looked: number; dead: string[] } {
  const text = withoutBlocks(readFileSync(join(root, file), 'utf8'));
  const links = [
    ...text.matchAll(/!?\[[^\]]*\]\(([^)\s]+)[^)]*\)/g),
    ...text.matchAll(/(?:src|href|srcset)="([^"]+)"/g),
  ]
    .map((match) => match[1]!)
    .filter((link) => !/^[a-z]+:/.test(link));
  const dead = links.filter((link) => {
    const [path, anchor] = link.split('#') as [string, string?];
    const target = path === '' ? file : normalize(join(dirname(file), decodeURIComponent(path)));
    if (!existsSync(join(root, target))) return true;
    return anchor !== undefined && !headingAnchors(readFileSync(join(root, target), 'utf8')).includes(anchor);
  });
  const paths = [...text.matchAll(/`((?:packages|tests|data-demo|shared|notebooks)\/[\w./-]*)`/g)].map(
    (match) => match[1]!,
  );
  dead.push(...paths.filter((path) => !existsSync(join(root, path))));
  return { looked: links.length + paths.length, dead };
}

/** Anchors of the headings: lower case, punctuation left out, blanks as dashes. */
function headingAnchors(text: string): string[] {
  return [...withoutBlocks(text).matchAll(/^#+ (.*)$/gm)].map((match) =>
    match[1]!
      .toLowerCase()
      .replace(/[^\p{L}\p{N} _-]/gu, '')
      .replaceAll(' ', '-'),
  );
}
