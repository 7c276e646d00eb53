import { isLanguage, LANGUAGES } from '@clampclock/messages'
import { NativeSelect } from '@mantine/core'
import { Languages } from 'lucide-react'
import { keepLanguage } from '../lib/preferences.ts'
import { reader, setReader, t } from '../lib/reader.ts'

/** The language of this browser, for who is not signed in yet. */
export function LanguageSwitch() {
  const { language } = reader()
  return (
    <NativeSelect
      mt="lg"
      label={t('app.language')}
      leftSection={<Languages size={16} aria-hidden />}
      description={LANGUAGES[language].reviewed ? undefined : t('app.notReviewed')}
      value={language}
      data={Object.entries(LANGUAGES).map(([value, { name }]) => ({ value, label: name }))}
      onChange={({ currentTarget: { value } }) => {
        if (!isLanguage(value)) return
        keepLanguage(value)
        void setReader({ ...reader(), language: value })
      }}
    />
  )
}
