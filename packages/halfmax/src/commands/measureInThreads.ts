import { Worker } from 'node:worker_threads';
import { BadInputError } from '../errors.js';
import type {
  MeasuredFilter,
  MeasuredSession,
  MeasuredStars,
  Provenance,
  StarJob,
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
 * Measures a session in worker threads: one reads it and fits the wavelength scale, while the others begin with the
 * stars, which need none; then all share out the filters. The calling thread stays free. The result does not depend on
 * how many threads there are.
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
    const read = await ask(first, { ask: 'read', folder, seed: provenance.seed }, (step) => {
      // The others load their code while the first one reads: all at once, they would keep it from its start.
      while (workers.length < threads) workers.push(new Worker(workerFile));
      onStep(step);
    });
    const { starJobs } = expectReply(read, 'read');
    const planned = ask(first, { ask: 'plan', provenance }, onStep);
    const { filters, stars } = await shareOut(planned, starJobs, workers, onStep);
    return expectReply(await ask(first, { ask: 'finish', filters, stars }, onStep), 'session').session;
  } finally {
    // Nobody need wait for their end: they hold nothing that is still to be written.
    for (const worker of workers) void worker.terminate();
  }
}

/** The code of a worker; there is none where the package runs from its sources. */
export const workerFile: URL = new URL('./measureWorker.js', import.meta.url);

/**
 * Gives every worker a job as soon as it has none: stars until the plan is made by the first worker, then filters,
 * those that are likely to be long first, then what is left of the stars.
 */
async function shareOut(
  planned: Promise<WorkerReply>,
  starJobs: readonly StarJob[],
  workers: readonly Worker[],
  onStep: (step: string) => void,
): Promise<{ filters: MeasuredFilter[]; stars: MeasuredStars[] }> {
  const starReplies: WorkerReply[] = [];
  const waitingStars = [...starJobs.keys()];
  const measureStarsBy = async (worker: Worker): Promise<void> => {
    for (let index = waitingStars.shift(); index !== undefined; index = waitingStars.shift())
      starReplies[index] = await ask(worker, { ask: 'stars', job: starJobs[index]! }, onStep);
  };
  const replies: WorkerReply[] = [];
  const plan = planned.then((reply) => {
    const { jobs } = expectReply(reply, 'jobs');
    const lines = (index: number): number => jobs[index]!.filter.lines.length;
    return { jobs, waiting: [...jobs.keys()].sort((a, b) => lines(b) - lines(a)) };
  });
  await Promise.all(
    workers.map(async (worker, w) => {
      if (w > 0) await measureStarsBy(worker);
      const { jobs, waiting } = await plan;
      for (let index = waiting.shift(); index !== undefined; index = waiting.shift()) {
        onStep(`measure ${jobs[index]!.filter.label}`);
        const request: WorkerRequest = w === 0 ? { ask: 'own', index } : { ask: 'job', job: jobs[index]! };
        replies[index] = await ask(worker, request, onStep);
      }
      await measureStarsBy(worker);
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
