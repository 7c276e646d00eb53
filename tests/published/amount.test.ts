import { beadAmount, cartridgeReach } from '@clampclock/cure'
import { describe, expect, it } from 'vitest'

/** A section of 1 mm2 is 1 mL per metre; all values are geometry, computed outside this project. */
const round = (diameterMm: number) =>
  ({ shape: 'round', diameterMm, lengthMm: 1000, cartridgeMl: 200 }) as const

describe('amount of adhesive', () => {
  it.each([
    [3, 7.069],
    [4, 12.566],
    [5, 19.635],
    [6, 28.274],
    [8, 50.265],
    [10, 78.54],
  ])('a round bead of %d mm takes %d mL per metre', (diameterMm, ml) => {
    expect(beadAmount(round(diameterMm)).beadMl).toBeCloseTo(ml, 3)
  })

  it.each([
    [6, 6, 18],
    [8, 10, 40],
    [9, 12, 54],
  ])('a triangular bead of %d by %d mm takes %d mL per metre', (widthMm, heightMm, ml) => {
    const bead = { shape: 'triangular', widthMm, heightMm, lengthMm: 1000, cartridgeMl: 200 } as const
    expect(beadAmount(bead).beadMl).toBeCloseTo(ml, 10)
  })

  it.each([
    [20, 0.25, 5],
    [25, 0.25, 6.25],
    [25, 0.5, 12.5],
    [12.7, 0.25, 3.175],
  ])('a film of %d by %d mm takes %d mL per metre', (skimWidthMm, skimFilmMm, ml) => {
    expect(beadAmount({ ...round(6), skimWidthMm, skimFilmMm }).skimMl).toBeCloseTo(ml, 10)
  })

  it('a cartridge of 50, 200, 220, 400 mL does 1.768, 7.074, 7.781, 14.147 m of 6 mm bead', () => {
    const table = cartridgeReach([50, 200, 220, 400], [{ shape: 'round', diameterMm: 6 }])
    expect(table.map((row) => Number((row.lengthMm / 1000).toFixed(3)))).toEqual([
      1.768, 7.074, 7.781, 14.147,
    ])
  })

  // 6 mm round to 0.25 mm would be 113.1 mm wide: it over-fills a 25 mm flange 4.5 times.
  it('a 6 mm bead pressed to 0.25 mm glass beads over-fills a 25 mm flange 4.5 times', () => {
    const { filmMm, squeezeOutShare } = beadAmount({ ...round(6), flangeWidthMm: 25, glassBeadMm: 0.25 })
    expect(1 / (1 - squeezeOutShare!)).toBeCloseTo(113.1 / 25, 2)
    expect((filmMm! * 25) / 0.25).toBeCloseTo(113.1, 1)
  })
})
