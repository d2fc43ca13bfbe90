/** Verdicts about builds: what closes, touches, overlaps, sticks out, mates. */
export { missesOf, missIn, type Sum, sumsOf } from './closing.ts';
export { spanOf, standsAsCut } from './extent.ts';
export { type Bench, judge } from './judge.ts';
export { idleLets } from './lettingPass.ts';
export { meets, type Profile, type Profiles, profilesOf, turnedRight } from './mating.ts';
export { unmetBy } from './meeting.ts';
export { neighbours } from './neighbours.ts';
export { verdictsSaid } from './saying.ts';
