/** Wavelengths of the built-in skies: 350 to 1000 nm in steps of half a nanometre; narrow lines stand beside them. */
export const skyGrid: Float64Array = Float64Array.from({ length: 1301 }, (_, i) => 350 + 0.5 * i);
