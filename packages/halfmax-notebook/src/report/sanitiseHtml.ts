import { createRequire } from 'node:module';

interface SanitiseOptions {
  readonly allowedTags: readonly string[];
  readonly allowedAttributes: Readonly<Record<string, readonly string[]>>;
  readonly allowedClasses: Readonly<Record<string, readonly string[]>>;
  readonly allowedSchemes: readonly string[];
  readonly allowedSchemesByTag: Readonly<Record<string, readonly string[]>>;
  readonly allowProtocolRelative: boolean;
  readonly disallowedTagsMode: 'discard';
  readonly nonTextTags: readonly string[];
  readonly nestingLimit: number;
  readonly transformTags: Readonly<Record<string, (tag: string, attributes: Attributes) => Tag>>;
  readonly exclusiveFilter: (frame: { tag: string; attribs: Attributes }) => boolean;
}

type Attributes = Readonly<Record<string, string>>;

interface Tag {
  readonly tagName: string;
  readonly attribs: Attributes;
}

const TAGS = [
  'a abbr b blockquote br caption code col colgroup dd del details dfn div dl dt em figcaption figure h1 h2 h3 h4 h5 h6',
  'hr i img ins kbd li mark ol p pre q s samp small span strong sub summary sup table tbody td tfoot th thead tr tt u ul var',
].flatMap((names) => names.split(' '));

/** Pictures that lie in the document itself, of kinds that cannot hold a script. */
const PICTURE = /^data:image\/(?:png|jpeg|gif|webp);base64,[\d+/=A-Za-z\s]+$/;

const options: SanitiseOptions = {
  allowedTags: TAGS,
  allowedAttributes: {
    a: ['href', 'title', 'rel'],
    img: ['src', 'alt', 'width', 'height'],
    td: ['colspan', 'rowspan'],
    th: ['colspan', 'rowspan', 'scope'],
    ol: ['start'],
    col: ['span'],
    colgroup: ['span'],
  },
  allowedClasses: { td: ['number'], th: ['number'] },
  allowedSchemes: ['http', 'https', 'mailto'],
  allowedSchemesByTag: { img: ['data'] },
  allowProtocolRelative: false,
  disallowedTagsMode: 'discard',
  // What is inside these is no text of the document and goes with them.
  nonTextTags:
    'script style textarea option noscript template iframe object embed svg math title xmp noembed'.split(
      ' ',
    ),
  nestingLimit: 60,
  transformTags: {
    a: (tagName, attribs) => ({
      tagName,
      attribs: attribs['href'] === undefined ? {} : { ...attribs, rel: 'noopener noreferrer' },
    }),
    img: (tagName, attribs) => ({ tagName, attribs: { ...attribs, alt: attribs['alt'] ?? '' } }),
  },
  exclusiveFilter: ({ tag, attribs }) => tag === 'img' && !PICTURE.test(attribs['src'] ?? ''),
};

const sanitiser = createRequire(import.meta.url)('sanitize-html') as (
  html: string,
  options: SanitiseOptions,
) => string;

/**
 * HTML of a notebook without anything that could run, load or imitate: texts, tables, links to the web and pictures that
 * lie in the document are left.
 *
 * No styles, no ids, no classes but that of numbers in tables, no forms, no scripts, no drawings in the text itself.
 *
 * @param html - from anywhere
 * @returns HTML that may stand in a page
 */
export function sanitiseHtml(html: string): string {
  return sanitiser(html, options);
}
