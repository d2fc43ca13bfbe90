/** The kit that `new` writes: it cuts as it stands, and shows a little of everything. */
export const starterKit = `# A starter kit. Cut it as it stands, then change one thing at a time.
# Whatever follows a # is a remark for you.

cardwright: kit
title: Village jetty
units: in                        # the unit of bare numbers; any number may carry its own: 60 mm

grid: { square: 3 }              # the footprint of one tile

materials:
  mount board:
    thickness: 1/16
    # measured: 1.5 mm           # what your calipers say; from then on all sums use it
  stripwood card:
    thickness: 1/32
    grain: yes                   # its sheets say below which way the grain runs

sheets:                          # what you can buy: length first, then width
  mount board:    [{ size: [16, 12] }]
  stripwood card: [{ size: A4, grain: length }]

lengths:                         # names for measures; a sum stands in round brackets
  rise: 3/4
  inside: (square - 2 x thickness of mount board)    # between two sides: 3 - 1/8 = 2 7/8

tiles:
  jetty:
    parts:
      side:  { of: mount board, size: [square, rise], count: 2 }
      cross: { of: mount board, size: [inside, rise], count: 3, note: both ends and the middle }
      plank: { of: stripwood card, size: [square, 3/8], grain: length, count: 8 }

# As it is, one of each tile is cut. For more of them:
#   on the command line    --make jetty=4
#   or in this file        write  session  in place of  kit  at the top, and add
# make: { jetty: 4 }
`;
