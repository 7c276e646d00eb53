/** What is wrong with a record: by table and field, as they are named in the database. */
export const patterns = {
  'record-fault.differs': '{where}: the record says {told}, the table holds {held}',
  'record-fault.notInTable': '{where}: the record tells of it, and it is not in the table',
  'record-fault.notInRecord': '{where}: is in the table, and no entry tells of it',
  'record-fault.afterPrinted': '{where}: {at} is after its printed expiry, {printed}',
  'record-fault.changed': 'was changed after it had been written',
  'record-fault.doesNotFollow': 'does not follow the entry before it',
  'record-fault.missing': 'entry {sequence} is missing before it',
  'record-fault.noRecord': 'has no record: every entry of it is gone',
  'record-fault.headLost':
    'the kept head {hash} is in no unbroken chain: entries were cut off or written anew since it was kept',
  'record-fault.notChained': 'The bond was made before records were chained',
  'record-fault.entry': 'Entry {sequence} {fault}',
} as const
