export const patterns = {
  'mail.subject':
    '{alerts, plural, one{# open alert} other{# open alerts}}{dangers, plural, =0{} other{, # of danger}}: {on}',
  'mail.intro': 'What needs attention in your shops:',
  'mail.alert':
    '{severity, select, danger{DANGER} warning{WARNING} other{NOTICE}}: {what}{owned, select, yes{ ({owner})} other{}}',
  'mail.more': 'and more.',
  'mail.heads':
    'Latest entries of the bond records (keep this mail: records:verify --head compares with it):',
} as const
