export { type Program, printPdf } from './printPdf.ts';
