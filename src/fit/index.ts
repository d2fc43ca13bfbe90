/** Verdicts about builds: what closes, touches, overlaps, sticks out, mates. */
export { missesOf, missIn } from './closing.ts';
export { type Bench, judge } from './judge.ts';
export { topsAt } from './levels.ts';
export { meets, type Profile, type Profiles, profilesOf, turnedRight } from './mating.ts';
export { neighbours } from './neighbours.ts';
export { verdictsSaid } from './saying.ts';
