export { printSvg, type SvgFile } from './printSvg.ts';
