export { buildReport, type ReportNotebook, type ReportOptions } from './buildReport.js';
export { reportCommand, reportUsage } from './reportCommand.js';
export { sanitiseHtml } from './sanitiseHtml.js';
