/** Environment variable by which the runner tells a kernel that it draws the stills itself, and its value for that. */
export const STILLS_VARIABLE = 'HALFMAX_STILLS';
export const STILLS_BY_RUNNER = 'runner';
