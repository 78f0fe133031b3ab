import type { Warning } from '../frames/types.js';
import { asList, asRecord, type LooseRecord } from './manifest.js';
import { nearestName } from './nearestName.js';
import { quoteValue } from './quoteValue.js';
import { sessionSchema } from './sessionSchema.generated.js';

function resolve(schema: LooseRecord): LooseRecord {
  const reference = schema['$ref'];
  if (typeof reference !== 'string') return schema;
  return reference
    .split('/')
    .slice(1)
    .reduce<LooseRecord>((part, name) => asRecord(part[name]), asRecord(sessionSchema));
}

function walk(value: unknown, schema: LooseRecord, path: string, where: string, warnings: Warning[]): void {
  const items = schema['items'];
  if (Array.isArray(value) && items !== undefined && !Array.isArray(items)) {
    value.forEach((item, i) => {
      walk(item, resolve(asRecord(items)), `${path}[${i}]`, where, warnings);
    });
    return;
  }
  const properties = schema['properties'];
  if (properties === undefined || asList(value).length > 0) return;
  const known = asRecord(properties);
  for (const [name, inner] of Object.entries(asRecord(value))) {
    const shown = /^[\w$-]{1,60}$/.test(name) ? name : quoteValue(name);
    const place = path === '' ? shown : `${path}.${shown}`;
    if (Object.hasOwn(known, name)) {
      walk(inner, resolve(asRecord(known[name])), place, where, warnings);
    } else {
      const near = nearestName(name, Object.keys(known));
      const hint = near === null ? '' : `; did you mean ${near}?`;
      warnings.push({ where, what: `${place} is not a field this version knows; kept, not used${hint}` });
    }
  }
}

/**
 * Warns of every field of a manifest that the schema does not name.
 *
 * @param manifest - parsed JSON
 * @param where - file name for messages
 * @returns one warning per field, with a guess at what a misspelled one was meant to be
 */
export function unknownFields(manifest: unknown, where: string): Warning[] {
  const warnings: Warning[] = [];
  walk(manifest, asRecord(sessionSchema), '', where, warnings);
  return warnings;
}
