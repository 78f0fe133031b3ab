// The shapes of a simulation: what goes in and what is true of it. Types only.

/**
 * @typedef {import('./image.mjs').Optics} Optics
 * @typedef {import('./bandTruth.mjs').BandTruth} BandTruth
 *
 * @typedef {object} InstrumentSpec
 * @property {import('./grating.mjs').GratingGeometry} geometry
 * @property {import('./lineSpread.mjs').LineSpreadSpec} lineSpread
 * @property {import('./throughput.mjs').ThroughputSpec} throughput
 *
 * @typedef {object} ScanSpec how open and filtered scans are taken
 * @property {number} exposureMs
 * @property {number} frames
 * @property {number} peakCounts of an open scan, above dark
 * @property {number} temperatureK of the broadband lamp
 * @property {number} driftPerHour relative, linear
 * @property {number} walkPerRootHour relative, random
 * @property {number} colourPerHour exponent of the wavelength
 * @property {number} flicker relative, from frame to frame
 * @property {number} minutesBetween two scans
 *
 * @typedef {import('./transmittance.mjs').FilterCurveSpec & {
 *   id: string, label: string, lines: readonly string[], claims: Record<string, unknown>,
 *   price?: { amount: number, currency: string }, exposuresMs?: readonly number[], frames?: number,
 * }} FilterSpec
 *
 * @typedef {object} TroubleSpec one frame that went wrong
 * @property {'unlit' | 'struck' | 'moved'} kind
 * @property {string} role of the entry
 * @property {string} [lamp]
 * @property {string} [filter]
 * @property {number} [exposureMs]
 * @property {number} [occurrence] which of the entries that fit, from 0
 * @property {number} frame from 0
 * @property {number} [pixel] `struck`: where
 * @property {number} [shiftPx] `moved`: by how much
 *
 * @typedef {object} SessionSpec
 * @property {string} title
 * @property {string} recorded ISO date
 * @property {InstrumentSpec} instrument
 * @property {import('./detector.mjs').DetectorSpec} detector
 * @property {{ startNm: number, endNm: number } | null} nominalRange
 * @property {number} darkFrames for each exposure time
 * @property {readonly import('./lamps.mjs').LampSpec[]} lamps
 * @property {ScanSpec | null} scan null for a session of lamps only
 * @property {readonly FilterSpec[]} filters
 * @property {readonly TroubleSpec[]} [trouble]
 * @property {import('./simulateStars.mjs').StarsSpec} [stars] pictures of a bright star through the filters
 * @property {Record<string, unknown>} [extra] further fields of the session file (site, beam)
 * @property {import('./writers.mjs').FormatRule[]} [formats] how the files are written
 * @property {readonly number[]} [ownScaleErrorNm] of the wavelength column in the files: at the middle, slope, bend
 *
 * @typedef {object} SimulatedScan
 * @property {string} file
 * @property {string} column
 * @property {Float64Array} counts
 * @property {Float64Array | null} wavelengthNm
 *
 * @typedef {object} SimulatedEntry one entry of the session's `frames`, its files read
 * @property {number} index
 * @property {'dark' | 'lamp' | 'open' | 'filtered'} role
 * @property {number} exposureMs
 * @property {string | null} lamp
 * @property {string | null} filter
 * @property {number | null} takenAtMs
 * @property {SimulatedScan[]} scans
 *
 * @typedef {object} LineTruth
 * @property {string} lamp
 * @property {string} species
 * @property {number} wavelengthNm
 * @property {string} kind
 * @property {number} pixel place of its centroid on the detector, the lamp's shift included
 * @property {number} countsPerMs in its highest pixel
 *
 * @typedef {object} FilterTruth
 * @property {string} id
 * @property {{
 *   lines: { name: string, wavelengthNm: number, transmittance: number, seenTransmittance: number }[],
 *   ideal: BandTruth, asMeasured: BandTruth, lineSpreadNm: number,
 * }[]} bands in order of wavelength; `asMeasured` is what a perfect bench with this line spread would find
 *
 * @typedef {object} Truth
 * @property {Float64Array} wavelengthNm at each pixel centre, for light that comes as the broadband lamp's does
 * @property {Float64Array} lineSpreadNm full width at half maximum at each pixel
 * @property {{ label: string, shiftPx: number }[]} lamps
 * @property {LineTruth[]} lines
 * @property {{ entry: number, level: number, colour: number }[]} lampLevels of the broadband lamp
 * @property {FilterTruth[]} filters
 * @property {{ entry: number, frame: number, kind: string }[]} trouble
 */

export {};
