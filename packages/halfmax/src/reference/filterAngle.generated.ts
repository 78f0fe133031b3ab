// Made from shared/filter-angle.json by scripts/generate-tables.mjs; do not edit.
import type { FilterAngleTable } from './types.js';

export const filterAngleTable: FilterAngleTable = {
  title: "How a passband answers to angle and temperature",
  medium: "-",
  unit: "effective index without unit; nm per kelvin",
  edition: "ranges over designs",
  source: [
    "index 1.5 to 1.9 for most coatings: Smith, Modern Optical Engineering, 3rd edition, page 246",
    "index near 2.1 asked of filters for fast beams: Isaac Newton Group, filter specifications",
    "temperature, 0.1 to 0.2 angstrom per kelvin: Smith, the same page; 0.1 nm per 5.5 K: Kitt Peak National Observatory, notes on filters",
  ],
  note: "Where nothing is known of a filter the index is taken anywhere in its range with equal chance, and so is the temperature coefficient.",
  effectiveIndex: [ 1.5, 2.1 ],
  temperatureNmPerK: [ 0.01, 0.02 ],
};
