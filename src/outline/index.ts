export type { Swell } from './arc.ts';
export { arcsFor } from './arcsForCurve.ts';
export { areaOf } from './area.ts';
export { tightestOf } from './bending/bendRadius.ts';
export { seenAlong } from './bending/sideView.ts';
export { type Skin, skinOver, type Unfollowed } from './bending/skin.ts';
export { differenceOf, type TopEdge, topEdgeOf } from './bending/topEdge.ts';
export { type Box, boxOf, type HeldBox, heldBy } from './box.ts';
export { difference, intersection, union } from './combine.ts';
export { type CompassStep, compassStepsOf, marksAlong, standingForCurves } from './compass.ts';
export { type Standing, standingOf } from './contains.ts';
export type { Corners } from './cuts/corners.ts';
export { type Cut, withCuts } from './cuts/cuts.ts';
export type { Arch, Notch } from './cuts/edgeCut.ts';
export type { Hole, HolePlace } from './cuts/hole.ts';
export type { AlongEdge, Repeat } from './cuts/place.ts';
export { isClearOf } from './distance.ts';
export { bevelKey, edgesKey, rebateKey } from './edges.ts';
export { pi } from './enclosure.ts';
export { type Facets, flattened, type Lean, mostOff } from './flatten.ts';
export { degreesOf, mitreOf, turnOf } from './folding/bend.ts';
export { foldedBlank } from './folding/blank.ts';
export { type Fold, type FoldedStrip, type FoldMade, foldedStrip, type Strip } from './folding/strip.ts';
export { trayBlank } from './folding/tray.ts';
export { outlineKey, tellsHands } from './hands.ts';
export { curvedStretches, type Heights, heightsAt, ordinatesOf, type Stretch } from './heights.ts';
export { insideAlong, type Range } from './insideAlong.ts';
export { type Motion, mirrorAt, reversed, shiftBy } from './loop.ts';
export { largerAllRound, smallerAllRound } from './makers/allRound.ts';
export { type ArchSize, arched } from './makers/arched.ts';
export { wholeLess } from './makers/cutAway.ts';
export { wholeOfHalf } from './makers/half.ts';
export { type PathStep, path } from './makers/path.ts';
export { polygon } from './makers/polygon.ts';
export { rectangle } from './makers/rectangle.ts';
export { circle, halfRound, quarterRound, slot } from './makers/rounds.ts';
export type { End } from './makers/slopes.ts';
export { through } from './makers/through.ts';
export { laid, mirrored, mirrorOf, onDatum, turned } from './makers/turned.ts';
export { type Mark, withMarks } from './marks.ts';
export { offset } from './offset.ts';
export { headToTail, type Pairing } from './pairing.ts';
export {
  isPlainBlank,
  mirroredPanel,
  movedPanel,
  type PanelFrame,
  slopedPanel,
  withPanels,
} from './panels.ts';
export { curvedLengthOf, perimeterOf } from './perimeter.ts';
export {
  type Body,
  bodyOf,
  fillsItsBlock,
  type Piece,
  shadowOf,
  shapeAlong,
  shapesOf,
} from './prisms/body.ts';
export {
  blockOfHole,
  middleThrough,
  type RoundHole,
  roomAround,
  standsSquare,
  stretchIn,
  wallLeft,
} from './prisms/hole.ts';
export { faceAtEnd, facesDrawn, restBehind } from './prisms/pierced.ts';
export {
  isShaped,
  type Plane,
  type Prism,
  planeAcross,
  rectangleIn,
  type Shaped,
} from './prisms/prism.ts';
export {
  type Column,
  columnsOf,
  type EndRange,
  endHeightOf,
  endRangeOf,
  reachBetween,
  reachFromAbove,
  topEdgesOf,
} from './prisms/profile.ts';
export { looksThere, sideAreaOf, slantAreaOf } from './prisms/sides.ts';
export { type SharedSpace, sharedSpace } from './prisms/space.ts';
export { type Touch, touchesOf } from './prisms/touch.ts';
export { rough } from './prisms/verdict.ts';
export { asLengths, middleOf, rootOf } from './root.ts';
export { inWords, showIn } from './saying.ts';
export { type Answer, bareAreaOf, isStraight, liesIn, shareArea, sharedAreaOf } from './sharing.ts';
export { type Inclination, type SlopedBoard, slopedBoard } from './sloping.ts';
