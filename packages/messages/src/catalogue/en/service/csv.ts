export const patterns = {
  'csv.column':
    '{column, select, at{At (UTC)} what{What} product{Product} lot{Lot} cartridge{Cartridge} shop{Shop} shelf{Shelf} place{Place} ml{mL} millilitres{mL} state{State} expired{Expired} quarantined{Quarantined} repairOrder{Repair order} vehicle{Vehicle} joint{Joint} safetyClass{Safety class} attempt{Attempt} appliedAt{Applied at} appliedBy{Applied by} by{By} other{Reason}}',
  'csv.yes': '{is, select, yes{yes} other{no}}',
  'csv.what':
    '{what, select, joint{joint} cartridge{cartridge} received{received} opened{opened} used{used} emptied{emptied} discarded{discarded} corrected{corrected} sent{sent} arrived{arrived} moved{moved} lost{lost} other{{what}}}',
  'csv.state':
    '{state, select, sealed{sealed} opened{opened} empty{empty} discarded{discarded} inTransit{inTransit} missing{missing} applied{applied} clamped{clamped} released{released} abandoned{abandoned} other{{state}}}',
} as const
