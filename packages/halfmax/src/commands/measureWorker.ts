import { parentPort } from 'node:worker_threads';
import { BadInputError, type InputProblem } from '../errors.js';
import type {
  FilterJob,
  MeasuredFilter,
  MeasuredSession,
  MeasuredStars,
  MeasurementPlan,
  Provenance,
  StarJob,
} from '../measure/index.js';
import { measureFilter, measureStars, planMeasurement, starJobs } from '../measure/index.js';
import type { BenchSession } from '../session/index.js';

/** What a worker is asked for. */
export type WorkerRequest =
  | { readonly ask: 'read'; readonly folder: string; readonly seed: number }
  /** Clean frames and wavelength scale of the session that this worker read. */
  | { readonly ask: 'plan'; readonly provenance: Omit<Provenance, 'inputs'> }
  /** A job of the plan that this worker made. */
  | { readonly ask: 'own'; readonly index: number }
  /** A job of another worker's plan. */
  | { readonly ask: 'job'; readonly job: FilterJob }
  | { readonly ask: 'stars'; readonly job: StarJob }
  | {
      readonly ask: 'finish';
      readonly filters: readonly MeasuredFilter[];
      readonly stars: readonly MeasuredStars[];
    };

/** What a worker says. All but `step` end a request. */
export type WorkerReply =
  | { readonly say: 'step'; readonly step: string }
  | { readonly say: 'read'; readonly starJobs: readonly StarJob[] }
  | { readonly say: 'jobs'; readonly jobs: readonly FilterJob[] }
  | { readonly say: 'filter'; readonly measured: MeasuredFilter }
  | { readonly say: 'stars'; readonly measured: MeasuredStars }
  | { readonly say: 'session'; readonly session: MeasuredSession }
  | { readonly say: 'refused'; readonly problems: readonly InputProblem[] }
  | { readonly say: 'fault'; readonly message: string; readonly stack: string };

let session: BenchSession | null = null;
let plan: MeasurementPlan | null = null;

async function answer(request: WorkerRequest): Promise<WorkerReply> {
  switch (request.ask) {
    case 'read': {
      onStep('read the session');
      const { readSession } = await import('../session/index.js');
      session = readSession(request.folder);
      return { say: 'read', starJobs: starJobs(session.stars ?? [], request.seed) };
    }
    case 'plan':
      plan = planMeasurement(session!, { provenance: request.provenance, onStep });
      return { say: 'jobs', jobs: plan.jobs };
    case 'own':
      return { say: 'filter', measured: measured(plan!.jobs[request.index]!) };
    case 'job':
      return { say: 'filter', measured: measured(request.job) };
    case 'stars':
      return { say: 'stars', measured: measureStars(request.job, onStep) };
    case 'finish':
      return { say: 'session', session: plan!.finish(request.filters, request.stars) };
  }
}

function measured({ filter, frames, calibration, options }: FilterJob): MeasuredFilter {
  return measureFilter(filter, frames, calibration, options, onStep);
}

function onStep(step: string): void {
  say({ say: 'step', step });
}

function say(reply: WorkerReply): void {
  parentPort?.postMessage(reply);
}

parentPort?.on('message', (request: WorkerRequest) => {
  // What cannot be sent is a fault as well.
  const answered = answer(request).then(say);
  answered.catch((fault: unknown) => {
    if (fault instanceof BadInputError) say({ say: 'refused', problems: fault.problems });
    else if (fault instanceof Error) say({ say: 'fault', message: fault.message, stack: fault.stack ?? '' });
    else say({ say: 'fault', message: String(fault), stack: '' });
  });
});
