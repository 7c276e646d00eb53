export const patterns = {
  'setup.setUpClampclock': 'Set-up · Clampclock',
  'setup.setUpClampclock2': 'Set up Clampclock',
  'setup.createYourChainAndItsFirstOwnerShops':
    'Create your chain and its first owner. Shops, bays and people come next.',
  'setup.setUpCode': 'Set-up code',
  'setup.theServerPrintedItAtItsStart': 'The server printed it at its start.',
  'setup.nameOfTheChain': 'Name of the chain',
  'setup.yourName': 'Your name',
  'setup.yourEMail': 'Your e-mail',
  'setup.password': 'Password',
  'setup.atLeast12CharactersASentenceIsGood': 'At least 12 characters. A sentence is good.',
  'setup.createChainAndOwner': 'Create chain and owner',
} as const
