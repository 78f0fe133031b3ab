export {
  INPUTS_MIME,
  type InputDefaults,
  type InputValue,
  type NotebookInputs,
  notebookInputs,
} from './notebookInputs.js';
