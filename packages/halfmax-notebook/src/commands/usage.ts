import { compareUsage } from './compare.js';
import { reportUsage } from './report.js';

/** The help of the command; apart, since a run needs none of what it is made of. */
export const usageText: string = `halfmax-notebook runs TypeScript notebooks on a reproducible kernel.

  halfmax-notebook rerun NOTEBOOK... --session DIR --out DIR [options]
      runs every cell of each notebook in a fresh kernel and writes the executed notebooks
      --session DIR      bench session that the notebooks are fed (left out: the one that each names itself)
      --out DIR          folder for the executed notebooks: empty, new, or of an earlier run
      --seed S           seed of all random numbers (whole number from 0 to 4294967295; left out: 1)
      --draws N          Monte Carlo draws, for notebooks that ask for them
      --input NAME=VALUE any other input that a notebook declares; may be given again
      --start TIME       what the clock shows to the notebooks, such as 2025-03-14T21:00:00Z, or "now"
                         (left out: the day on which the session was recorded, so that two runs are alike)
      --jobs N           notebooks at a time (1 to 16; left out: 1)
      --timeout S        most seconds that one cell may take (left out: 600)
      --memory MB        most memory of one kernel (left out: 4096)
      --fence KIND       auto, bwrap, node or none; auto: none for notebooks of the checkout that this command is
                         of, for all others the strongest that there is
      --check            compares each executed notebook with the outputs that the given one holds; needs no --out

${compareUsage}
${reportUsage}
  halfmax-notebook new DIR [--name NAME]
      starts a session folder: session.json from the frame files in it, and a notebook (left out: named after the
      folder); asks at the terminal for what names and files do not tell, also for day and title, and for each filter's
      name, price and claims of its data sheet; an empty answer leaves a thing open; never writes over a file
  halfmax-notebook kernel --dir DIR
      writes a kernelspec below DIR, for Jupyter with JUPYTER_PATH=DIR
  halfmax-notebook lab [-- WORDS FOR JUPYTER]
      starts Jupyter with this kernel where it is installed, and says how to install it where not

  halfmax-notebook --version
  halfmax-notebook --help

A notebook is a program: running one that somebody else wrote lets that person's code run on this machine.

Exit codes: 0 done; 2 the command or its input is wrong; 3 compare or --check found a difference; 4 a notebook failed
(a cell threw, took too long, ran out of memory or ended its kernel); 1 a fault of the program; 130 interrupted.
`;
