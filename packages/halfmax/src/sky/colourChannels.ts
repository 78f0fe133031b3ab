import { colourCameraTable } from '../reference/index.js';
import type { ColourChannel } from './camera.js';

/**
 * Channels of a colour camera of the usual kind: one red, two green and one blue pixel in four.
 *
 * @returns red, green and blue with their shares of the pixels and responses from 350 to 1000 nm
 * Source: the table colour-camera, a typical shape.
 */
export function colourChannels(): ColourChannel[] {
  const { columns, rows, shares } = colourCameraTable;
  const wavelengthNm = rows.map((row) => row[0]!);
  return (['red', 'green', 'blue'] as const).map((name) => {
    const column = columns.indexOf(name);
    return {
      name,
      share: shares[name],
      response: { wavelengthNm, fraction: rows.map((row) => row[column]!) },
    };
  });
}
