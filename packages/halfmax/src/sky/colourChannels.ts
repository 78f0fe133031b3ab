import { colourCameraTable } from '../reference/index.js';
import type { ColourChannel } from './camera.js';

const COLOURS = ['red', 'green', 'blue'] as const;

/** Responses of a sensor's colours, of the colour layer alone: tables of nm and fraction, ascending. */
export type ColourResponses = Readonly<
  Record<(typeof COLOURS)[number], readonly (readonly [number, number])[]>
>;

/**
 * Channels of a colour camera: one red, two green and one blue pixel in four.
 *
 * @param own - responses of the sensor; left out: those of a sensor of the usual kind
 * @returns red, green and blue with their shares of the pixels and responses
 * Source: the table colour-camera, a typical shape.
 */
export function colourChannels(own?: ColourResponses): ColourChannel[] {
  const { columns, rows, shares } = colourCameraTable;
  return COLOURS.map((name) => {
    const column = columns.indexOf(name);
    const table = own?.[name] ?? rows.map((row) => [row[0]!, row[column]!] as const);
    return {
      name,
      share: shares[name],
      response: { wavelengthNm: table.map(([nm]) => nm), fraction: table.map(([, fraction]) => fraction) },
    };
  });
}
