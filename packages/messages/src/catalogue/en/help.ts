export const patterns = {
  'help.title': 'What the words mean',
  'help.lede':
    'Each term once, as it is used on these screens. The data sheet and the vehicle maker’s procedure rule over any figure here.',
  'help.allTerms': 'All terms',
  'help.handlingStrength.term': 'Handling strength',
  'help.handlingStrength.meaning':
    'The share of its strength at which a joint may be unclamped and the vehicle moved; not driving strength.',
  'help.workTime.term': 'Work time',
  'help.workTime.meaning':
    'From the nozzle to the last instant at which the joint may be closed and clamped.',
  'help.fullCure.term': 'Full cure',
  'help.fullCure.meaning': 'The strength that the data sheet promises.',
  'help.bondLine.term': 'Bond line',
  'help.bondLine.meaning':
    'The layer of adhesive between two panels; its thickness is what glass beads hold.',
  'help.skimCoat.term': 'Skim coat',
  'help.skimCoat.meaning': 'A thin coat on bared metal before the bead.',
  'help.careful.term': 'Careful estimate',
  'help.careful.meaning': 'The latest of the three: every doubt counted against us. Gates go by it.',
  'help.expected.term': 'Expected, earliest',
  'help.expected.meaning': 'The estimate in the middle, and the one that the work time is counted by.',
  'help.estimated.term': 'Interpolated, extrapolated, estimated',
  'help.estimated.meaning':
    'Between the points of the data sheet, beyond them, or by the doubling rule where it has one point.',
  'help.safetyClass.term': 'Safety class S1 to S4',
  'help.safetyClass.meaning':
    'What happens if the joint fails: danger to life; danger of injury or large loss; discomfort or some loss; negligible.',
  'help.printedExpiry.term': 'Printed expiry',
  'help.printedExpiry.meaning': "The day on the label; it counts to its end in the shop's zone.",
  'help.openLife.term': 'Open life',
  'help.openLife.meaning': 'How long a cartridge may be used once it was opened.',
  'help.onHold.term': 'On hold',
  'help.onHold.meaning': 'A lot that nobody may use, in every shop.',
  'help.quarantined.term': 'Quarantined',
  'help.quarantined.meaning': 'One cartridge that nobody may use until somebody entitled decides.',
  'help.suspect.term': 'Good, suspect, withdrawn, corrected',
  'help.suspect.meaning': 'The quality of a reading; a suspect one may delay, and never helps.',
  'help.gate.term': 'Gate',
  'help.gate.meaning': 'A rule that a bond must pass before it starts, is released or moved.',
  'help.incident.term': 'Incident',
  'help.incident.meaning': 'Something that happened against a rule; open until it is decided.',
} as const
