import { describe, expect, it } from 'vitest'
import { byStanding, standingOf } from './qualification-standing.ts'

const TODAY = '2031-05-04'
const valid = (validUntil: string, issuedOn = '2030-05-04') => ({ issuedOn, validUntil, ended: null })
const ended = {
  ...valid('2033-01-01'),
  ended: { at: '2031-03-02T10:00:00Z', by: 'O', reason: 'Moved to paint' },
}

describe('standingOf', () => {
  it('counts the last day to its end, and warns two months ahead', () => {
    expect(standingOf(valid('2031-05-03'), TODAY)).toEqual({ tone: 'danger', word: 'Ran out' })
    expect(standingOf(valid('2031-05-04'), TODAY)).toEqual({ tone: 'warning', word: 'Last day' })
    expect(standingOf(valid('2031-05-05'), TODAY).word).toBe('1 day left')
    expect(standingOf(valid('2031-07-03'), TODAY).word).toBe('60 days left')
    expect(standingOf(valid('2031-07-04'), TODAY)).toEqual({ tone: 'ready', word: 'Valid' })
  })
  it('says from when one counts that is not issued yet, and why one was ended', () => {
    expect(standingOf(valid('2032-01-01', '2031-06-01'), TODAY).word).toBe('From 1 Jun 2031')
    expect(standingOf(ended, TODAY)).toEqual({ tone: 'quiet', word: 'Ended 2 Mar 2031: Moved to paint' })
  })
})

describe('byStanding', () => {
  it('puts the one that runs out next first, and what is over last', () => {
    const list = [ended, valid('2031-05-03'), valid('2032-01-01'), valid('2031-06-01')]
    expect(list.sort(byStanding(TODAY)).map(({ validUntil }) => validUntil)).toEqual([
      '2031-06-01',
      '2032-01-01',
      '2031-05-03',
      '2033-01-01',
    ])
  })
})
