/** What a batch needs, reckoned: for text, JSON and tables of other programs. */
export { printCountCsv } from './csv.ts';
export { type FittingToBuy, fittingsToBuy, takersOf } from './fittings.ts';
export {
  costsOf,
  type MaterialWork,
  type SizeByTile,
  sizesByTile,
  type ToBuy,
  type Work,
  workOf,
} from './work.ts';
