import type { InputProblem } from '../errors.js';
import { nearestName } from './nearestName.js';
import { quoteValue } from './quoteValue.js';
import type { SchemaError } from './schemaError.js';
import { sessionSchema } from './sessionSchema.generated.js';
import { validateSession } from './validateSession.generated.js';

/** Every field name of the schema: a field that is right where it stands is not a slip for another. */
const knownNames: ReadonlySet<string> = new Set(
  Array.from(JSON.stringify(sessionSchema).matchAll(/"(\w+)":/g), (match) => match[1]!),
);

/** `/frames/2/exposureMs` as `frames[2].exposureMs`. */
function fieldName(instancePath: string): string {
  return instancePath
    .split('/')
    .slice(1)
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'))
    .reduce(
      (path, part) => (/^\d+$/.test(part) ? `${path}[${part}]` : path === '' ? part : `${path}.${part}`),
      '',
    );
}

function child(path: string, name: string): string {
  return path === '' ? name : `${path}.${name}`;
}

/** What is wrong and what to do, from one error of the schema. */
function problemOf(error: SchemaError, where: string): InputProblem {
  const place = fieldName(error.instancePath);
  const description = (error.parentSchema as { description?: unknown } | undefined)?.description;
  const meaning = typeof description === 'string' ? `it is ${description}` : 'correct it';
  const found = quoteValue(error.data);
  const { params } = error;
  const because = (what: string, fix: string = meaning): InputProblem => ({ where, place, what, fix });
  switch (error.keyword) {
    case 'required': {
      const name = String(params['missingProperty']);
      const near = nearestName(
        name,
        Object.keys((error.data ?? {}) as object).filter((key) => !knownNames.has(key)),
      );
      const fix = near === null ? 'add it' : `rename ${quoteValue(near)} to ${quoteValue(name)}`;
      return { where, place: child(place, name), what: 'is missing', fix };
    }
    case 'type':
      return because(`is ${found}, not ${article(String(params['type']))}`);
    case 'enum':
      return because(
        `is ${found}`,
        `use one of ${(params['allowedValues'] as unknown[]).map(quoteValue).join(', ')}`,
      );
    case 'const':
      return because(`is ${found}`, `write ${quoteValue(params['allowedValue'])}`);
    case 'pattern':
      return because(`is ${found}`);
    case 'minimum':
    case 'maximum':
    case 'exclusiveMinimum':
    case 'exclusiveMaximum':
      return because(`is ${found}, must be ${params['comparison']} ${params['limit']}`);
    case 'minLength':
      return because('is an empty text', 'fill it in');
    case 'minItems':
    case 'maxItems': {
      const bound = error.keyword === 'minItems' ? 'at least' : 'at most';
      return because(`has ${(error.data as unknown[]).length} items, must have ${bound} ${params['limit']}`);
    }
    default:
      return because(
        `is ${found}`,
        typeof description === 'string' ? `it must be ${description}` : (error.message ?? meaning),
      );
  }
}

function article(type: string): string {
  const names: Record<string, string> = {
    object: 'an object',
    array: 'a list',
    string: 'a text in quotes',
    number: 'a number',
    integer: 'a whole number',
  };
  return names[type] ?? type;
}

/** Errors of the branches of a choice say less than the choice itself, and `if` repeats its `then`. */
function isInsideChoice(error: SchemaError): boolean {
  return (
    /\/(anyOf|oneOf)\/\d+\//.test(error.schemaPath) || error.keyword === 'if' || error.keyword === 'contains'
  );
}

/**
 * Checks a manifest against the schema of the session.
 *
 * @param manifest - parsed JSON
 * @param where - file name for messages
 * @returns every problem, empty when it fits
 */
export function checkSchema(manifest: unknown, where: string): InputProblem[] {
  if (validateSession(manifest)) return [];
  return (validateSession.errors ?? [])
    .filter((error) => !isInsideChoice(error))
    .map((error) => problemOf(error, where));
}
