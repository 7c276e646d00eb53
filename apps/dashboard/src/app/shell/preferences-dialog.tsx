import { isLanguage, LANGUAGES } from '@clampclock/messages'
import { NativeSelect } from '@mantine/core'
import { useState } from 'react'
import { ROUTES } from '../../api/contracts.ts'
import { useAction } from '../../api/use-action.ts'
import { useMe } from '../../api/use-me.ts'
import { readerFrom } from '../../lib/preferences.ts'
import { t } from '../../lib/reader.ts'
import { FormDialog } from '../../ui/dialogs/form-dialog.tsx'

/** How a person reads: his own, in every shop and on every device. What he leaves to the browser follows it. */
export function PreferencesDialog({ onClose }: { readonly onClose: () => void }) {
  const { preferences } = useMe()
  const [chosen, setChosen] = useState(preferences)
  const save = useAction(ROUTES.setPreferences, { topics: ['people'], onDone: onClose })
  const browsers = readerFrom({}, navigator.language)
  const language = chosen.language ?? browsers.language
  const likeBrowser = (what: string) => ({ value: '', label: t('app.likeTheBrowser', { what }) })
  const clocks = { '24h': t('app.clock24'), '12h': t('app.clock12') }
  return (
    <FormDialog
      title={t('app.myLanguageAndUnits')}
      onClose={onClose}
      onSubmit={(event) => {
        event.preventDefault()
        save.mutate({ body: chosen })
      }}
      submitLabel={t('app.save')}
      isPending={save.isPending}
      error={save.error}
    >
      <NativeSelect
        label={t('app.language')}
        description={LANGUAGES[language].reviewed ? undefined : t('app.notReviewed')}
        value={chosen.language ?? ''}
        onChange={({ currentTarget: { value } }) =>
          setChosen((old) => ({ ...old, language: isLanguage(value) ? value : null }))
        }
        data={[
          likeBrowser(LANGUAGES[browsers.language].name),
          ...Object.entries(LANGUAGES).map(([value, { name }]) => ({ value, label: name })),
        ]}
      />
      <NativeSelect
        label={t('app.temperatures')}
        value={chosen.temperature ?? ''}
        onChange={({ currentTarget: { value } }) =>
          setChosen((old) => ({ ...old, temperature: value === 'C' || value === 'F' ? value : null }))
        }
        data={[
          likeBrowser(`°${browsers.temperature}`),
          { value: 'C', label: '°C' },
          { value: 'F', label: '°F' },
        ]}
      />
      <NativeSelect
        label={t('app.timeOfDay')}
        value={chosen.clock ?? ''}
        onChange={({ currentTarget: { value } }) =>
          setChosen((old) => ({ ...old, clock: value === '24h' || value === '12h' ? value : null }))
        }
        data={[
          likeBrowser(clocks[browsers.clock]),
          { value: '24h', label: clocks['24h'] },
          { value: '12h', label: clocks['12h'] },
        ]}
      />
    </FormDialog>
  )
}
