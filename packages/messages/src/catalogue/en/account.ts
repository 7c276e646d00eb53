export const patterns = {
  'account.title': 'Password and sign-ins',
  'account.password': 'Password',
  'account.presentPassword': 'Present password',
  'account.newPassword': 'New password',
  'account.newPasswordAgain': 'New password again',
  'account.atLeast12':
    'At least 12 characters; a few words that have nothing to do with one another are good',
  'account.notTheSame': 'is not the same as above',
  'account.changePassword': 'Change password',
  'account.changed': 'The password is changed. Every other device is signed out.',
  'account.signIns': 'Where you are signed in',
  'account.signInsLede': 'A device that you do not know: sign it out, then change the password.',
  'account.signInsLower': 'where you are signed in',

  'account.phone': 'Phone or tablet',
  'account.computer': 'Computer',
  'account.program': 'Program',
  'account.thisOne': 'This device',
  'account.since': 'Since',
  'account.lastUsed': 'Last used',
  'account.until': 'Signed out by itself',
  'account.signOut': 'Sign out',
  'account.deviceSince': '{device}, since {since}',
  'account.signOutEverywhere': 'Sign out everywhere',
  'account.everywhereMeans':
    'Every device of yours is signed out, this one too. Nothing that is saved is lost.',
  'account.stay': 'Stay signed in',
  'account.chooseTitle': 'Choose your own password',
  'account.chooseLede':
    'The password that you signed in with was set by somebody else. Choose one that you alone know; then everything is open.',
  'account.choose': 'Choose',
} as const
