export { printPdf } from './printPdf.ts';
