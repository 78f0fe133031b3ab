import { Worker } from 'node:worker_threads';
import { BadInputError } from '../errors.js';
import type {
  FilterJob,
  MeasuredFilter,
  MeasuredSession,
  MeasuredStars,
  Provenance,
} from '../measure/index.js';
import type { WorkerReply, WorkerRequest } from './measureWorker.js';

/** What is to be measured, and how. */
export interface ThreadedMeasurement {
  readonly folder: string;
  readonly provenance: Omit<Provenance, 'inputs'>;
  /** Workers, 2 or more. */
  readonly threads: number;
  readonly onStep: (step: string) => void;
}

/**
 * Measures a session in worker threads: one reads it and fits the wavelength scale, then all share out the filters
 * and stars.
 * The calling thread stays free. The result does not depend on how many threads there are.
 *
 * @param work - session, provenance, threads
 * @returns measurement and curves
 * @throws {BadInputError} as `readSession` and `planMeasurement`
 */
export async function measureInThreads(work: ThreadedMeasurement): Promise<MeasuredSession> {
  const { folder, provenance, threads, onStep } = work;
  const first = new Worker(workerFile);
  const workers = [first];
  try {
    const planned = await ask(first, { ask: 'plan', folder, provenance }, (step) => {
      // The others load their code while the first one reads: all at once, they would keep it from its start.
      while (workers.length < threads) workers.push(new Worker(workerFile));
      onStep(step);
    });
    const { jobs, starJobs } = expectReply(planned, 'jobs');
    const { filters, stars } = await shareOut(jobs, starJobs, workers, onStep);
    return expectReply(await ask(first, { ask: 'finish', filters, stars }, onStep), 'session').session;
  } finally {
    // Nobody need wait for their end: they hold nothing that is still to be written.
    for (const worker of workers) void worker.terminate();
  }
}

/** The code of a worker; there is none where the package runs from its sources. */
export const workerFile: URL = new URL('./measureWorker.js', import.meta.url);

/**
 * Gives every worker a job as soon as it has none; those that are likely to be long go first. The first worker, which
 * holds the images of the stars, begins with them.
 */
async function shareOut(
  jobs: readonly FilterJob[],
  starJobs: number,
  workers: readonly Worker[],
  onStep: (step: string) => void,
): Promise<{ filters: MeasuredFilter[]; stars: MeasuredStars[] }> {
  const waiting = [...jobs.keys()];
  waiting.sort((a, b) => jobs[b]!.filter.lines.length - jobs[a]!.filter.lines.length);
  const replies: WorkerReply[] = [];
  const starReplies: WorkerReply[] = [];
  await Promise.all(
    workers.map(async (worker, w) => {
      for (let index = 0; w === 0 && index < starJobs; index++)
        starReplies.push(await ask(worker, { ask: 'stars', index }, onStep));
      for (let index = waiting.shift(); index !== undefined; index = waiting.shift()) {
        onStep(`measure ${jobs[index]!.filter.label}`);
        const request: WorkerRequest = w === 0 ? { ask: 'own', index } : { ask: 'job', job: jobs[index]! };
        replies[index] = await ask(worker, request, onStep);
      }
    }),
  );
  // A fault of the first filter comes first, whoever found one sooner.
  return {
    filters: replies.map((reply) => expectReply(reply, 'filter').measured),
    stars: starReplies.map((reply) => expectReply(reply, 'stars').measured),
  };
}

function ask(worker: Worker, request: WorkerRequest, onStep: (step: string) => void): Promise<WorkerReply> {
  return new Promise((resolve, reject) => {
    const settle = (end: () => void): void => {
      worker.off('message', hear);
      worker.off('error', fail);
      end();
    };
    const hear = (reply: WorkerReply): void => {
      if (reply.say === 'step') onStep(reply.step);
      else settle(() => resolve(reply));
    };
    const fail = (fault: unknown): void => settle(() => reject(fault));
    worker.on('message', hear);
    worker.on('error', fail);
    worker.postMessage(request);
  });
}

function expectReply<S extends WorkerReply['say']>(
  reply: WorkerReply,
  say: S,
): Extract<WorkerReply, { say: S }> {
  if (reply.say === 'refused') throw new BadInputError(reply.problems);
  if (reply.say === 'fault') {
    const fault = new Error(reply.message);
    if (reply.stack !== '') fault.stack = reply.stack;
    throw fault;
  }
  if (reply.say !== say) throw new Error(`a worker said ${reply.say} where ${say} was expected`);
  return reply as Extract<WorkerReply, { say: S }>;
}
