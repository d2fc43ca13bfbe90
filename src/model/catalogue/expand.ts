import type { Way } from '../build.ts';
import type { Side } from '../spec.ts';
import { cornerCodes } from './corners.ts';
import { entry } from './entry.ts';
import { few } from './few.ts';
import { slopeCodes } from './slopes.ts';

/** The codes of `expand/`. A code is never reused or renumbered. */
export const expandCodes = {
  E01: entry({
    severity: 'error',
    title: 'a name that nothing has',
    say: ({ name, meant, kind }: Unknown & { kind: 'material' | 'part' | 'rest' | undefined }) => {
      if (kind === 'rest') return 'nothing is left over here that "rest" could be';
      return kind === undefined ? `unknown name "${name}"${meant}` : `"${name}" is a ${kind}, not a measure`;
    },
    hint: ({ name, known, kind }) => {
      if (kind === 'rest')
        return 'a measure; rest is for the size of a part or a gap in a build, and stands alone';
      if (kind === 'material') return `(thickness of ${name}) is its thickness`;
      if (kind === 'part') return `(length of ${name}) and (width of ${name}) are its sizes`;
      return known.length === 0 ? 'name it under lengths:, numbers: or levels:' : `known here: ${few(known)}`;
    },
  }),
  E02: entry({
    severity: 'error',
    title: 'a name with two meanings',
    say: ({ name }: { name: string }) => `"${name}" means more than one thing here`,
    hint: () => 'give one of them another name',
  }),
  E03: entry({
    severity: 'error',
    title: 'sums that need each other',
    say: ({ chain }: { chain: readonly string[] }) => `these need each other: ${chain.join(' → ')}`,
    hint: () => 'give one of them a measure of its own',
  }),
  E04: entry({
    severity: 'error',
    title: 'nothing of that name to measure',
    say: ({ wanted, name, meant }: Unknown & { wanted: string }) =>
      `no ${wanted} is called "${name}"${meant}`,
    hint: ({ known }) => knownHere(known),
  }),
  E05: entry({
    severity: 'error',
    title: 'an unknown material',
    say: ({ name, meant }: Unknown) => `unknown material "${name}"${meant}`,
    hint: ({ known }) =>
      known.length === 0
        ? 'describe it under materials:, or name a shelf file that does under uses:'
        : knownHere(known),
  }),
  E06: entry({
    severity: 'error',
    title: 'a length without a unit',
    say: ({ found }: { found: string }) => `"${found}" has no unit, and this file has none either`,
    hint: ({ found }) =>
      `say   units: in   or   units: mm   at the top of the file${/^[\d/. ⁄½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞-]+$/.test(found) ? `, or write ${found} in` : ''}`,
  }),
  E07: entry({
    severity: 'error',
    title: 'a number where a length is wanted',
    say: ({ found, comesTo }: { found: string; comesTo: string; asLength: string | undefined }) =>
      `"${found}" is the plain number ${comesTo}; a length is wanted`,
    hint: ({ asLength }) =>
      asLength === undefined ? 'a length has its name under lengths:' : `which is the length?   ${asLength}`,
  }),
  E08: entry({
    severity: 'error',
    title: 'a length where a number is wanted',
    say: ({ found }: { found: string }) => `"${found}" is a length; a plain number is wanted`,
    hint: () => 'a length over a length is a number: (core / tread)',
  }),
  E09: entry({
    severity: 'error',
    title: 'an area as a result',
    say: ({ found, wanted }: { found: string; wanted: string }) =>
      `"${found}" is an area, a length times a length; ${wanted} is wanted`,
    hint: () => 'an area is fine on the way: (area / length) is a length',
  }),
  E10: entry({
    severity: 'error',
    title: 'kinds that do not go together',
    say: ({ how, left, right }: Unlike) =>
      `"${left.text}" is ${a(left.kind)}, "${right.text}" ${a(right.kind)}: ${
        how === 'product'
          ? 'there is no measure for their product'
          : how === 'quotient'
            ? "the one can't be divided by the other"
            : "they don't go together"
      }`,
    hint: ({ how, asLength }) => {
      if (how === 'product') return 'a length times a length is an area; there is nothing beyond';
      if (how === 'quotient') return 'a length over a length is a number, a length over a number is a length';
      if (asLength !== undefined) return `which is the length?   ${asLength}`;
      return 'both have to be lengths, or both plain numbers';
    },
  }),
  E11: entry({
    severity: 'error',
    title: 'division by zero',
    say: ({ divisor }: { divisor: string }) => `division by zero: "${divisor}" comes to 0`,
    hint: () => 'a divisor that is not 0, or leave the division out',
  }),
  E12: entry({
    severity: 'error',
    title: 'a length that is too small',
    say: ({ comesTo, least }: TooSmall) =>
      `comes to ${comesTo}; it has to be ${least === 'zero' ? 'at least zero' : 'above zero'}`,
    hint: ({ least, key, units }) => {
      if (least === 'zero') return 'a length without a minus; 0 for none';
      const length = `a length that can be cut, as in ${units === 'in' ? '2 1/2' : '60'}`;
      return key === undefined ? length : `leave   ${key}   out for none, or ${length}`;
    },
  }),
  E13: entry({
    severity: 'error',
    title: 'a length over 100 m',
    say: ({ comesTo }: { comesTo: string }) => `comes to ${comesTo}; lengths go to 100 m`,
    hint: () => 'is it the right unit? 2 1/2 in and 63.5 mm are the same',
  }),
  E14: entry({
    severity: 'error',
    title: 'a count that is not whole',
    say: ({ what, comesTo }: { what: string; comesTo: string }) =>
      `${what} come in whole numbers, not ${comesTo}`,
    hint: () => 'digits alone, as in 6; a sum may end in   up to 1   or   down to 1',
  }),
  E15: entry({
    severity: 'error',
    title: 'a count out of range',
    say: ({ what, comesTo, least, most }: { what: string; comesTo: string; least: string; most: string }) =>
      `${what} go from ${least} to ${most}, not ${comesTo}`,
    hint: ({ comesTo, least }) => {
      if (comesTo !== '0' && !comesTo.startsWith('-')) return 'is there a digit too many?';
      return least === '0' ? '0 for none' : 'leave out what is not wanted';
    },
  }),
  E16: entry({
    severity: 'error',
    title: 'a number with too many digits',
    say: ({ found }: { found: string }) => `"${found}" comes to a number of more than 300 digits`,
    hint: () => 'round on the way: (… nearest 1/64)',
  }),
  E17: entry({
    severity: 'error',
    title: 'names that lean on names without end',
    say: ({ deepest }: { deepest: number }) => `this leans on sums more than ${deepest} deep`,
    hint: () => 'state a measure somewhere along the way',
  }),
  E18: entry({
    severity: 'error',
    title: 'no square to go by',
    say: ({ why }: { why: 'no grid' | 'not square' }) =>
      why === 'no grid' ? 'there is no grid here' : 'the grid is not as long as it is wide',
    hint: ({ why }) =>
      why === 'no grid'
        ? 'say   grid: { square: 3 }   in this file, or give the tile a footprint: [3, 3]'
        : 'say square across or square along',
  }),
  E19: entry({
    severity: 'error',
    title: 'no such size of this tile',
    say: ({ name, why }: { name: string; why: 'no tile' | 'no footprint' | 'no height' }) =>
      why === 'no tile'
        ? `"${name}" belongs to a tile, and this is in none`
        : `"${name}": the tile has ${why}`,
    hint: ({ why }) =>
      why === 'no tile'
        ? 'name it under lengths: of the tile'
        : why === 'no height'
          ? 'say   height: …   in the tile'
          : 'leave   footprint: none   out',
  }),
  E20: entry({
    severity: 'error',
    title: 'a step that is not above zero',
    say: ({ step }: { step: string }) => `can't round to steps of "${step}"; a step is above zero`,
  }),
  E21: entry({
    severity: 'error',
    title: 'like an unknown part',
    say: ({ name, meant }: Unknown & { readonly isLoose: boolean }) => `no part "${name}" to be like${meant}`,
    hint: ({ name, known, isLoose }) =>
      isLoose
        ? `put "${name}" under parts: and take it up under loose: with ${name}: { like: ${name} }`
        : knownHere(known),
  }),
  E22: entry({
    severity: 'error',
    title: 'an unknown tile',
    say: ({ name, meant }: Unknown) => `unknown tile "${name}"${meant}`,
    hint: ({ known }) => knownHere(known),
  }),
  E23: entry({
    severity: 'error',
    title: 'things that are like each other in a ring',
    say: ({ chain }: { chain: readonly string[] }) => `like each other in a ring: ${chain.join(' → ')}`,
    hint: () => 'one of them has to stand for itself',
  }),
  E24: entry({
    severity: 'error',
    title: 'nothing there to take away',
    say: ({ name, base, meant }: { name: string; base: string | undefined; meant: string }) =>
      base === undefined
        ? `none takes "${name}" away, but this tile is like no other`
        : `"${base}" has no "${name}" to take away${meant}`,
  }),
  E25: entry({
    severity: 'error',
    title: 'a part of no material',
    say: ({ part }: { part: string }) => `"${part}" doesn't say what it is cut from`,
    hint: () => 'of: MATERIAL',
  }),
  E26: entry({
    severity: 'error',
    title: 'a part without a size',
    say: ({ part }: { part: string }) => `"${part}" has no size`,
    hint: () => 'size: [LENGTH, WIDTH]',
  }),
  E27: entry({
    severity: 'error',
    title: 'bound to what the material does not have',
    say: ({ part, material, what }: { part: string; material: string; what: 'grain' | 'flutes' }) =>
      `"${part}" minds the ${what}, but "${material}" has ${what === 'grain' ? 'no grain' : 'none'}`,
    hint: ({ material, what }) => `if it has, say   ${what}: yes   of the material ${material}`,
  }),
  E28: entry({
    severity: 'error',
    title: 'a material without a thickness',
    say: ({ material }: { material: string }) => `"${material}" has no thickness`,
    hint: () => 'thickness: 1/16 in',
  }),
  E29: entry({
    severity: 'error',
    title: 'a sheet without a size',
    say: ({ material }: { material: string }) => `this sheet of "${material}" has no size`,
    hint: () => 'size: [LENGTH, WIDTH], or a named one: size: A4',
  }),
  E30: entry({
    severity: 'error',
    title: 'a sheet that does not say how its grain or flutes run',
    say: ({ material, what }: { material: string; what: 'grain' | 'flutes'; isOffcut: boolean }) =>
      `"${material}" has ${what}; which side of this sheet ${what === 'grain' ? 'does it' : 'do they'} follow?`,
    hint: ({ what, isOffcut }) =>
      `${what}: length   or   ${what}: width${isOffcut ? `   or   ${what}: unknown` : ''}`,
  }),
  E31: entry({
    severity: 'error',
    title: 'a new sheet whose grain or flutes are unknown',
    say: ({ what }: { what: 'grain' | 'flutes' }) => `only an offcut may have unknown ${what}`,
    hint: ({ what }) => `${what}: length   or   ${what}: width`,
  }),
  E32: entry({
    severity: 'error',
    title: 'grain or flutes of a material that has none',
    say: ({ material, what }: { material: string; what: 'grain' | 'flutes' }) =>
      `"${material}" has no ${what}, so a sheet can't say how ${what === 'grain' ? 'it runs' : 'they run'}`,
    hint: ({ material, what }) => `leave it out, or say   ${what}: yes   of the material ${material}`,
  }),
  E33: entry({
    severity: 'error',
    title: 'a trim that leaves nothing',
    say: ({ trim, size, side }: { trim: string; size: string; side: 'length' | 'width' }) =>
      `the trim takes ${trim} off the ${side}, which is ${size}: nothing is left`,
  }),
  E34: entry({
    severity: 'error',
    title: 'edges that are not true, and no trim',
    say: ({ sides }: { sides: readonly string[] }) =>
      `the edges are not true, but no trim is taken off the ${sides.join(', ')}`,
    hint: () => 'say   trim: 1/8 in   of the sheet, so that it is squared up first',
  }),
  E35: entry({
    severity: 'error',
    title: 'nothing to make',
    say: ({ isByOption }: { isByOption: boolean }) =>
      isByOption
        ? '"--make" leaves nothing to make: it asks for no tile, and there is no loose part'
        : 'nothing is asked for: no tile and no loose part',
    hint: ({ isByOption }) =>
      isByOption ? 'a count above 0, or leave --make out' : 'a session says   make: { TILE: COUNT }',
  }),
  E36: entry({
    severity: 'error',
    title: 'two files that disagree',
    say: ({ what }: { what: string }) => `two files say something different about ${what}`,
    hint: () => 'say it once; a session goes before its kits',
  }),
  E37: entry({
    severity: 'error',
    title: 'a ruler that divides nothing',
    say: ({ step }: { step: string }) => `a ruler of ${step} divides neither an inch nor a millimetre`,
    hint: () => '1/16 in, 1/32 in, 1 mm, 0.5 mm',
  }),
  E38: entry({
    severity: 'error',
    title: 'margins that leave no paper',
    say: ({ margin, paper }: { margin: string; paper: string }) =>
      `two margins of ${margin} leave nothing of paper ${paper} wide`,
  }),
  E39: entry({
    severity: 'error',
    title: 'a tile that is too tall',
    say: ({ height, tallest }: { height: string; tallest: string }) =>
      `the tile is ${height} high; the grid allows ${tallest}`,
  }),
  E40: entry({
    severity: 'warning',
    title: 'a tile without parts',
    say: ({ tile }: { tile: string }) => `"${tile}" has no parts, so nothing is cut for it`,
  }),
  ...cornerCodes,
  ...slopeCodes,
  E50: entry({
    severity: 'error',
    title: 'a build of a part that is not there',
    say: ({ name, meant }: Unknown) => `no part is called "${name}"${meant}`,
    hint: ({ known }) => knownHere(known),
  }),
  E51: entry({
    severity: 'warning',
    title: 'a part that stands nowhere',
    say: ({ part }: { part: string }) => `"${part}" is neither in the build nor by eye, so none is cut`,
    hint: () => 'name it in the build, or say   by eye: COUNT',
  }),
  E52: entry({
    severity: 'error',
    title: 'counts that disagree',
    say: ({ part, count, stands }: { part: string; count: number; stands: number }) =>
      `"${part}" says count ${count}, but ${stands === 1 ? 'one stands' : `${stands} stand`} in the build`,
    hint: () => 'leave the count out: the build counts',
  }),
  E53: entry({
    severity: 'error',
    title: 'a rest of nothing',
    say: ({ part, size, way }: { part: string; size: Side | undefined; way: Way }) =>
      size === undefined
        ? `"${part}" takes the rest ${way}, but no room is known there`
        : `the ${size} of "${part}" is the rest ${way}, but no room is known there`,
    hint: () => 'give it a size, the tile a   height:   or the row a   to:',
  }),
  E54: entry({
    severity: 'error',
    title: 'nothing left for a rest',
    say: ({ what, way, left }: { what: string; way: Way; left: string }) =>
      `nothing is left ${way} for ${what}: the rest comes to ${left}`,
  }),
  E55: entry({
    severity: 'error',
    title: 'one part, two sizes',
    say: ({ tile, part, size, here, there }: Unalike) =>
      `"${tile}": ${size === undefined ? '' : `the ${size} of `}"${part}" would be ${here.is} as "${here.name}" ` +
      `and ${there.is} as "${there.name}"`,
    hint: ({ size, follows }) =>
      `make two parts of it${size === undefined || follows ? '' : `, or say its ${size}`}`,
  }),
  E56: entry({
    severity: 'error',
    title: 'alignments that contradict',
    say: ({ one, other }: { one: string; other: string }) => `${one} and ${other} contradict`,
    hint: () => 'keep one of them',
  }),
  E57: entry({
    severity: 'error',
    title: 'length and thickness the same way',
    say: ({ part, way }: { part: string; way: Way; isSaid: boolean }) =>
      `the length of "${part}" can't run ${way}: its thickness does`,
    hint: ({ isSaid }) => (isSaid ? undefined : 'say also which way its thickness runs:   thickness: WAY'),
  }),
  E58: entry({
    severity: 'error',
    title: 'facing where it has no face',
    say: ({ part, facing, sides }: { part: string; facing: string; sides: readonly [string, string] }) =>
      `"${part}" can't face ${facing}: as it stands it faces ${sides[0]} or ${sides[1]}`,
  }),
  E59: entry({
    severity: 'error',
    title: 'a name that is taken',
    say: ({ name }: { name: string }) => `something else in this build is called "${name}"`,
    hint: () => 'give it another name',
  }),
  E60: entry({
    severity: 'error',
    title: 'nothing there to stand against',
    say: ({ name, meant }: Unknown) => `nothing that stands already is called "${name}"${meant}`,
    hint: ({ known }) => knownHere(known),
  }),
  E61: entry({
    severity: 'error',
    title: 'upright for a part that does not stand so',
    say: ({
      part,
      what,
      why,
    }: {
      part: string;
      what: 'grain' | 'flutes';
      why: 'lies' | 'differs' | 'no build';
    }) =>
      why === 'lies'
        ? `the ${what} of "${part}" can't be upright: it lies`
        : why === 'differs'
          ? `"${part}" stands on its length in one place and on its width in another, so which is upright?`
          : `the ${what} of "${part}" can't be upright without a build`,
    hint: ({ what }) => `${what}: length   or   ${what}: width`,
  }),
  E62: entry({
    severity: 'error',
    title: 'a pitch for what has no size of its own',
    say: ({ what }: { what: string }) => `"${what}" takes the rest, so it can't stand every so much`,
    hint: () => 'say   apart:   for the clear distance, or give it a size',
  }),
  E63: entry({
    severity: 'error',
    title: 'a build without a footprint',
    say: ({ tile }: { tile: string }) => `"${tile}" has no footprint, so nothing can stand on it`,
    hint: () => 'give it squares or a footprint, or take the build away',
  }),
  E64: entry({
    severity: 'error',
    title: 'a rest outside of a build',
    say: ({ part, size }: { part: string; size: Side }) =>
      `the ${size} of "${part}" is the rest, but no build leaves it any`,
    hint: () => 'give it a size',
  }),
  E65: entry({
    severity: 'error',
    title: 'levels that do not match the squares',
    say: ({ found, wanted, side }: { found: number; wanted: number; side: string }) =>
      `the ${side} has ${wanted} corners and joints, but ${found} levels`,
    hint: () => 'one level more than it has squares, or one for all',
  }),
  E66: entry({
    severity: 'error',
    title: 'an unknown rack',
    say: ({ name, meant }: Unknown) => `no rack is called "${name}"${meant}`,
    hint: ({ known }) => knownHere(known),
  }),
  E67: entry({
    severity: 'error',
    title: 'an order of gluing that does not fit the build',
    say: ({ name, why }: { name: string; why: 'unknown' | 'missing' | 'twice' }) =>
      why === 'unknown'
        ? `the glue order names "${name}", which doesn't stand in the build`
        : why === 'twice'
          ? `the glue order names "${name}" twice`
          : `the glue order leaves "${name}" out`,
    hint: () => 'name every part of the build once, or leave the order out',
  }),
  E69: entry({
    severity: 'error',
    title: 'a sum that leans on a rest',
    say: ({ part, size }: { part: string; size: Side }) =>
      `the ${size} of "${part}" is the rest, so no sum can lean on it`,
    hint: () => 'give it a size, or lean on what leaves it the rest',
  }),
  E68: entry({
    severity: 'error',
    title: 'a rack without its inside',
    say: ({ rack }: { rack: string }) => `"${rack}" doesn't say how large it is inside`,
    hint: () => 'inside: [ACROSS, ALONG, UP]',
  }),
  E70: entry({
    severity: 'error',
    title: 'exposed flutes that can not be told',
    say: ({ part, material, why }: { part: string; material: string; why: 'no flutes' | 'any way' }) =>
      why === 'no flutes'
        ? `"${part}" has no flutes to be exposed: "${material}" has none`
        : `which way do the flutes of "${part}" run? only then can their exposed ends be told`,
    hint: ({ why }) =>
      why === 'no flutes'
        ? 'clad its sides by name:   clad: { top: MATERIAL }'
        : 'flutes: length   or   flutes: width   or   flutes: upright',
  }),
  E71: entry({
    severity: 'error',
    title: 'more pieces than a tile holds',
    say: ({ tile, most, pieces, part, count }: ManyPieces) =>
      `the build of "${tile}" comes to ${pieces} pieces, ${count} of them "${part}"; ${most} are the most`,
    hint: ({ part }) =>
      `let "${part}" stand less often: look at   times:   within times:   and, in courses, at   long:   and   high:`,
  }),
  E72: entry({
    severity: 'error',
    title: 'something beside a build that is not there',
    say: ({ tile, key }: { tile: string; key: string }) =>
      `"${tile}" has no build, so nothing can be made of its "${key}"`,
    hint: ({ key }) => `build: { up: [PART, …] }   or leave "${key}" out`,
  }),
  E73: entry({
    severity: 'warning',
    title: 'a claim that nothing is held to',
    say: ({ tile, key }: { tile: string; key: string }) =>
      `"${tile}" has no build, so its "${key}" can't be checked`,
    hint: () => 'build: { up: [PART, …] }',
  }),
  E74: entry({
    severity: 'error',
    title: 'an unknown master',
    say: ({ name, meant }: Unknown) => `unknown master "${name}"${meant}`,
    hint: ({ known }) => (known.length === 0 ? 'describe it under masters:' : knownHere(known)),
  }),
  E75: entry({
    severity: 'error',
    title: 'a size that is not that of the outline',
    say: ({ box }: { box: string }) => `the box around the outline is ${box}`,
    hint: () => 'leave the size out: it follows from the outline',
  }),
  E76: entry({
    severity: 'error',
    title: 'a developed length that is not rounded',
    say: ({ found }: { found: string }) => `"${found}" has to be rounded`,
    hint: ({ found }) => `(${found} up to 1/32)`,
  }),
  E81: entry({
    severity: 'error',
    title: 'the rest before the last evening',
    say: (_: Record<string, never>) => 'evenings come after this one, and it makes all the rest',
    hint: () => 'make: rest  on the last evening',
  }),
  E82: entry({
    severity: 'error',
    title: 'evenings that make more than is asked',
    say: ({ tile, count, left }: { tile: string; count: number; left: number }) =>
      `${count} of "${tile}" are made here; ${left === 0 ? 'none is' : `${left} ${left === 1 ? 'is' : 'are'}`} left of what is asked for`,
    hint: () => 'more under  make:  or  sets:  or fewer in an evening',
  }),
  E83: entry({
    severity: 'error',
    title: 'an evening that is not there',
    say: ({ found, evenings, meant }: { found: string; evenings: number; meant: string }) =>
      evenings === 0
        ? `there is no evening "${found}": the session has none`
        : `there is no evening "${found}" among ${evenings}${meant}`,
    hint: ({ evenings }) =>
      evenings === 0 ? 'evenings:  in the session' : `--evening 1 to ${evenings}, or a title`,
  }),
  E84: entry({
    severity: 'error',
    title: 'spares of an unknown part',
    say: ({ name, meant }: { name: string; meant: string }) => `there is no part "${name}"${meant}`,
    hint: () => 'the name of a part, or  face of retaining wall',
  }),
  E85: entry({
    severity: 'error',
    title: 'as many as possible of two things',
    say: ({ other }: { other: string }) =>
      `as many as possible is asked of "${other}" already: either could have all that is at hand`,
    hint: () => 'sets:  with count: most, for as many of several together',
  }),
  E86: entry({
    severity: 'error',
    title: 'a fitting that nobody describes',
    say: ({ name, meant }: Unknown) => `no fitting is called "${name}"${meant}`,
    hint: ({ name, known }) => knownHere(known) ?? `describe it:  fittings: { ${name}: {} }`,
  }),
  E87: entry({
    severity: 'warning',
    title: 'a fitting of the drawer that looks misspelt',
    say: ({ fitting, meant }: { fitting: string; meant: string }) =>
      `no file knows the fitting "${fitting}"${meant}; what the drawer lists of it is not used`,
  }),
  E90: entry({
    severity: 'error',
    title: 'offcuts in packs',
    say: () => 'an offcut is not sold in packs',
    hint: () => 'how many there are: count;  packs are for sheets',
  }),
  E91: entry({
    severity: 'error',
    title: 'a number of sheets that is not a number of packs',
    say: ({ pack, count }: { pack: number; count: number }) =>
      `${count} sheets are no number of packs of ${pack}`,
    hint: ({ pack, count }) =>
      `count: ${Math.max(1, Math.floor(count / pack)) * pack}   or, of sheets that you have already, list them in the drawer`,
  }),
  E99: entry({
    severity: 'error',
    title: 'as many as fit, and a number besides',
    say: ({ part, by }: { part: string; by: 'the build' | 'by eye' | 'clad' | 'takes' | 'spares' }) =>
      `"${part}" is made as often as it fits, ${
        {
          'the build': 'and how many stand in the build is a number',
          'by eye': 'and by eye says how many',
          clad: 'and its strips would need a number',
          takes: 'and what it takes would need a number',
          spares: 'so there is no number to add spares to',
        }[by]
      }`,
    hint: ({ by }) =>
      ({
        'the build': 'leave count out; for what is left over, a part of its own',
        'by eye':
          'so many, no more and no fewer:   by eye   alone;   at most so many:   count: as fits up to 60   alone',
        clad: 'leave clad out, or say a number:   count: 60',
        takes: 'let the tile take them:   takes   of the tile; or say a number:   count: 60',
        spares: 'leave it out: as many are made as fit',
      })[by],
  }),
  E80: entry({
    severity: 'warning',
    title: 'a material of the drawer that looks misspelt',
    say: ({ material, meant }: { material: string; meant: string }) =>
      `no file knows the material "${material}"${meant}; what the drawer lists of it is not used`,
  }),
  // Fittings let in: E95 to E98
  E95: entry({
    severity: 'error',
    title: 'a fitting let in whose size is not known',
    say: ({ fitting, lacks }: { fitting: string; lacks: string }) =>
      `"${fitting}" is let in here, and its ${lacks} is not said`,
    hint: () => 'fittings: { disc magnet: { diameter: 6 mm, depth: 2 mm, poles: yes } }',
  }),
  E96: entry({
    severity: 'error',
    title: 'nothing there to let a fitting into',
    say: ({ name, meant }: Unknown) => `nothing that stands in this tile is called "${name}"${meant}`,
    hint: ({ known }) => knownHere(known),
  }),
  E97: entry({
    severity: 'error',
    title: 'poles that do not agree with what is let in',
    say: ({ fitting, poles, count }: { fitting: string; poles: number; count: number | undefined }) =>
      count === undefined
        ? `"${fitting}" has no poles, so none of them can look ${'out or in'}`
        : poles === 0
          ? `"${fitting}" has poles, and it is not said which of them looks out`
          : `${poles} poles are named for ${count} of "${fitting}"`,
    hint: ({ count }) =>
      count === undefined
        ? 'poles: yes   in its description, where it has some'
        : 'pole: out, or one for each:   pole: [out, in]',
  }),
  E98: entry({
    severity: 'error',
    title: 'so many fittings have no places at an inset',
    say: ({ count }: { count: number }) =>
      `${count} at an inset have no place of their own: 2 sit at the ends, 4 in the corners`,
    hint: () => 'say where each of them is:   at: [[3/4, 1/8], [1 1/2, 1/8]]',
  }),
} as const;

interface TooSmall {
  readonly comesTo: string;
  readonly least: 'above zero' | 'zero';
  /** What may be left out where nothing of it is wanted. */
  readonly key: string | undefined;
  readonly units: 'in' | 'mm';
}

interface Unknown {
  readonly name: string;
  /** `; did you mean …`, or nothing. */
  readonly meant: string;
  readonly known: readonly string[];
}

/** Two pieces of a part that can't both be it. */
interface Unalike {
  readonly tile: string;
  readonly part: string;
  /** The size that differs; undefined: it is their outline. */
  readonly size: Side | undefined;
  readonly here: { readonly name: string; readonly is: string };
  readonly there: { readonly name: string; readonly is: string };
  /** True where the size follows from what it lies on or under, so that it can't be said. */
  readonly follows: boolean;
}

interface ManyPieces {
  readonly tile: string;
  readonly most: number;
  readonly pieces: number;
  /** What stands most often, and how often. */
  readonly part: string;
  readonly count: number;
}

interface Unlike {
  readonly how: string;
  readonly left: { readonly text: string; readonly kind: string };
  readonly right: { readonly text: string; readonly kind: string };
  /** The number with a unit in it, where that would make a length of it. */
  readonly asLength: string | undefined;
}

function knownHere(known: readonly string[]): string | undefined {
  return known.length === 0 ? undefined : `known here: ${few(known)}`;
}

function a(kind: string): string {
  return kind === 'area' ? 'an area' : kind === 'length' ? 'a length' : 'a plain number';
}
