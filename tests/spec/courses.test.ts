import { it } from 'vitest';
import { check } from './check.ts';

it('says what is missing or is no number of courses', () => {
  check(`
tiles:
  wall:
    build: { courses: brick, long: 6 }
#            ^^^^^^^ error S57: how many courses there are is not said: "high" is missing
  ramp:
    build: { courses: brick, long: 0, high: [4] }
#                                  ^ error S57: "0" is no number of bricks in a course in digits, from 1 to 10 000
#                                           ^^^ error S57: how many courses there are is not said: "high" is missing
  yard:
    build: { courses: brick, long: 3, high: 2, run: up }
#                                                   ^^ error S57: courses that run up can't be stacked up, too
`);
});

it('takes what a row takes, but not how its members stand', () => {
  check(`
tiles:
  wall:
    build: { up: [bed, { courses: brick, half: half brick, long: 6, high: 4, length: up, flush: back, to: free }] }
#                                                                            ^^^^^^ error S34: unknown key "length" in courses
`);
});
