export {
  type Answer,
  type Conversion,
  type ConversionRecord,
  type ConvertedArguments,
  type ConvertOptions,
  conversionLine,
  conversionLines,
  conversionRecord,
  convertArguments,
  convertLine,
  convertMeasure,
  convertToOne,
  type FaultRecord,
  type LineRecord,
  type LineResult,
  lineRecord,
  type PlaceWithin,
  type RulerAnswer,
  ruleOf,
  type WantedUnit,
} from './converting.ts';
export { decimalPlaces, exactDecimal, roundedDecimal, significantDecimal } from './decimals.ts';
export { type JoinedArgument, joinArguments } from './joining.ts';
export * from './length.ts';
export * from './mixedNumber.ts';
export { packsFor, priceFor, type Sold } from './price.ts';
export * from './rational.ts';
export * from './reading.ts';
export {
  isSeveral,
  isStepOfTable,
  type ReferenceRow,
  type ReferenceTable,
  type ReferenceWishes,
  referenceTable,
  unitOfTable,
} from './reference.ts';
export {
  diagonal,
  isGraduation,
  isMultiple,
  type Nearest,
  nearestMark,
  oneInch,
  oneMm,
  type RoundingWay,
  type RulerMark,
  roundToStep,
  roundToWhole,
  squareRoot,
  type Tendency,
  tendencyOf,
  unitOfRule,
} from './rounding.ts';
export {
  bareExact,
  errorText,
  finestInch,
  rulesFor,
  type ShownLength,
  type ShownPart,
  type Style,
  showDecimal,
  showExact,
  showFeet,
  showLength,
  showMark,
  showOnRuler,
  showRounded,
  showThickness,
  showThou,
} from './showing.ts';
export { unitNames } from './units.ts';
