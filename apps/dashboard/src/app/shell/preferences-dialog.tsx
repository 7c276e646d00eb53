import { LANGUAGES, type Language } from '@clampclock/messages'
import { NativeSelect } from '@mantine/core'
import { useState } from 'react'
import { ROUTES } from '../../api/contracts.ts'
import type { Me } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMe } from '../../api/use-me.ts'
import { browsersReader } from '../../lib/preferences.ts'
import { t } from '../../lib/reader.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'

type Preferences = Me['preferences']

const LANGUAGE_NAMES = Object.fromEntries(
  Object.entries(LANGUAGES).map(([code, { name }]) => [code, name]),
) as Record<Language, string>
const DAYS = [1, 2, 3, 4, 5, 6, 7] as const

/** How a person reads: his own, in every shop and on every device. What he leaves to the browser follows it. */
export function PreferencesDialog({ onClose }: { readonly onClose: () => void }) {
  const { preferences } = useMe()
  const [chosen, setChosen] = useState(preferences)
  const save = useAction(ROUTES.setPreferences, { topics: ['people'], onDone: onClose })
  const browsers = browsersReader()
  const language = chosen.language ?? browsers.language
  const change = (part: Partial<Preferences>) => setChosen((old) => ({ ...old, ...part }))
  const days = Object.fromEntries(DAYS.map((day) => [day, t(`calendar.weekdayName.${day}`)]))
  return (
    <FormDialog
      title={t('app.myLanguageAndUnits')}
      onClose={onClose}
      onSubmit={(event) => {
        event.preventDefault()
        save.mutate({ body: chosen })
      }}
      submitLabel={t('preferences.save')}
      isPending={save.isPending}
      error={save.error}
    >
      <Choice
        label={t('app.language')}
        {...(LANGUAGES[language].reviewed ? {} : { description: t('app.notReviewed') })}
        value={chosen.language}
        browsers={browsers.language}
        words={LANGUAGE_NAMES}
        onChange={(code) => change({ language: code })}
      />
      <Choice
        label={t('preferences.temperatures')}
        value={chosen.temperature}
        browsers={browsers.temperature}
        words={{ C: '°C', F: '°F' }}
        onChange={(temperature) => change({ temperature })}
      />
      <Choice
        label={t('preferences.volumes')}
        value={chosen.volume}
        browsers={browsers.volume}
        words={{ mL: t('preferences.millilitres'), flOz: t('preferences.fluidOunces') }}
        onChange={(volume) => change({ volume })}
      />
      <Choice
        label={t('preferences.lengths')}
        value={chosen.length}
        browsers={browsers.length}
        words={{ mm: t('preferences.millimetres'), in: t('preferences.inches') }}
        onChange={(length) => change({ length })}
      />
      <Choice
        label={t('preferences.timeOfDay')}
        value={chosen.clock}
        browsers={browsers.clock}
        words={{ '24h': t('preferences.clock24'), '12h': t('preferences.clock12') }}
        onChange={(clock) => change({ clock })}
      />
      <Choice
        label={t('preferences.firstDayOfTheWeek')}
        value={chosen.firstDay === null ? null : String(chosen.firstDay)}
        browsers={String(browsers.firstDay)}
        words={days}
        onChange={(day) => change({ firstDay: day === null ? null : Number(day) })}
      />
    </FormDialog>
  )
}

interface ChoiceProps<Value extends string> {
  readonly label: string
  readonly description?: string
  readonly value: Value | null
  /** What is taken while nothing is chosen. */
  readonly browsers: NoInfer<Value>
  readonly words: Readonly<Record<NoInfer<Value>, string>>
  readonly onChange: (value: Value | null) => void
}

function Choice<Value extends string>({ words, browsers, value, onChange, ...rest }: ChoiceProps<Value>) {
  const known = Object.keys(words) as Value[]
  return (
    <NativeSelect
      {...rest}
      value={value ?? ''}
      onChange={(event) => onChange(known.find((each) => each === event.currentTarget.value) ?? null)}
      data={[
        { value: '', label: t('preferences.likeTheBrowser', { what: words[browsers] }) },
        ...known.map((each) => ({ value: each, label: words[each] })),
      ]}
    />
  )
}
