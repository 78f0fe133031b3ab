export { buildReport, type ReportNotebook, type ReportOptions } from './buildReport.js';
export { sanitiseHtml } from './sanitiseHtml.js';
