// How much memory a run of trials takes at most, in a process of its own: node memory.mjs DRAWS
import { propagateInThreads } from 'halfmax/session';

const draws = Number(process.argv[2]);
const module = new URL('./model.mjs', import.meta.url).href;
const { outputs } = await propagateInThreads({
  module,
  make: 'wide',
  data: 40,
  outputs: 5,
  keep: [1],
  seed: 1,
  draws,
  threads: 1,
});
const bytes = process.resourceUsage().maxRSS * 1024;
console.log(JSON.stringify({ bytes, mean: outputs[0].mean }));
