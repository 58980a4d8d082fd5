/** Plates, slides and film. */
export const PLATES_AND_FILM: Readonly<Record<string, string>> = {
  'Collodion plates, ambrotypes and tintypes go first: air dried face up at once, then to a conservator.':
    'Las placas de colodión, ambrotipos y ferrotipos van primero: se secan al aire boca arriba de inmediato, y después a un conservador.',
  'Never leave it to soak.': 'Nunca lo deje en remojo.',
  'Collodion is never frozen: the image may shatter off its glass. Cool storage just above freezing is safer.':
    'El colodión nunca se congela: la imagen puede estallar y soltarse del vidrio. Guardarlo en frío justo por encima de la congelación es más seguro.',
  'A hard bar, kept as a precaution.': 'Una prohibición firme, mantenida por precaución.',
  'The 1983 test was soaking and then freeze-drying; its authors did not condemn freezing as such.':
    'La prueba de 1983 fue remojar y después liofilizar; sus autores no condenaron la congelación como tal.',
  'Never freeze or freeze-dry it.': 'Nunca lo congele ni lo liofilice.',
  'Daguerreotypes: at once, air dried untouched, and to a conservator.': 'Daguerrotipos: de inmediato, se secan al aire sin tocarlos, y a un conservador.',
  'From memory, not verified: daguerreotypes at once, not frozen, never touch or wipe the plate.':
    'De memoria, sin comprobar: daguerrotipos de inmediato, sin congelar, nunca tocar ni limpiar la placa.',
  'Never touch or wipe the plate.': 'Nunca toque ni limpie la placa.',
  'Never freeze it.': 'Nunca lo congele.',
  'Daguerreotype or cased photograph: stop, keep it face up and untouched, ask a conservator.':
    'Daguerrotipo o fotografía en estuche: pare, manténgalo boca arriba y sin tocarlo, pregunte a un conservador.',
  'A wet daguerreotype loses its image first.': 'Un daguerrotipo mojado pierde su imagen antes que nada.',
  'From memory, not verified: daguerreotypes at once, air dry.': 'De memoria, sin comprobar: daguerrotipos de inmediato, secar al aire.',
  'Gelatin glass plates and lantern slides belong to the first group: air dried, or referred.':
    'Las placas de vidrio a la gelatina y las diapositivas de linterna son del primer grupo: se secan al aire o se envían a un especialista.',
  'Nothing on glass goes into the freezer.': 'Nada que esté sobre vidrio va al congelador.',
  'Gelatin plates are referred, not frozen.': 'Las placas a la gelatina se envían a un especialista, no se congelan.',
  'Older charts (from memory) freeze gelatin plates and bar only collodion.': 'Los cuadros más viejos (de memoria) congelan las placas a la gelatina y solo prohíben el colodión.',
  'Never freeze glass plates.': 'Nunca congele placas de vidrio.',
  'Plates waiting wet stand upright in a padded container.': 'Las placas que esperan mojadas están de pie en un recipiente acolchado.',
  'From memory, not verified: keep glass plates wet and vertical in a padded container.': 'De memoria, sin comprobar: mantener las placas de vidrio mojadas y verticales en un recipiente acolchado.',
  'Upright, padded, wet until the conservator takes over.': 'De pie, acolchado, mojado hasta que lo reciba el conservador.',
  'Film in good condition is rinsed and hung by clips or laid out; it may be frozen.': 'La película en buen estado se enjuaga y se cuelga con pinzas o se extiende; se puede congelar.',
  'The base creases and scratches: edges only, hang by clips.': 'La base se pliega y se raya: solo por los bordes, colgar con pinzas.',
  'Lantern slides and autochromes go first: air dried untouched, or referred; nothing on glass is frozen.':
    'Las diapositivas de linterna y los autocromos van primero: se secan al aire sin tocarlos o se envían a un especialista; nada que esté sobre vidrio se congela.',
  'Lantern slides and autochromes are glass: not frozen.': 'Las diapositivas de linterna y los autocromos son de vidrio: no se congelan.',
  'Never freeze a lantern slide or autochrome.': 'Nunca congele una diapositiva de linterna ni un autocromo.',
  'Deteriorated safety film, buckled or smelling of vinegar, goes early as nitrate does.': 'La película de seguridad deteriorada, ondulada o con olor a vinagre, va pronto, como la de nitrato.',
  'Deteriorated safety film may be frozen for the specialist; it is not rinsed here.': 'La película de seguridad deteriorada se puede congelar para el especialista; aquí no se enjuaga.',
  'Our own calibration: the nitrate row without its fire; one library protocol freezes acetate film.':
    'Calibración propia: la fila del nitrato sin su fuego; el protocolo de una biblioteca congela película de acetato.',
  'Never rinse deteriorated film.': 'Nunca enjuague película deteriorada.',
  'Motion picture film and microfilm in rolls stay wet until a laboratory re-washes and dries them.':
    'La película de cine y el microfilme en rollo siguen mojados hasta que un laboratorio los lave de nuevo y los seque.',
  'From memory, not verified: keep wet, 48 h to re-wash; lab re-wash and dry; do not let a roll dry in coil.':
    'De memoria, sin comprobar: mantener mojado, 48 h para lavar de nuevo; lavado y secado en laboratorio; no dejar secar un rollo enrollado.',
  'Never let a roll dry in its coil.': 'Nunca deje que un rollo se seque enrollado.',
  'Whole roll under cold clean water, on its way to a laboratory within 48 hours.': 'El rollo entero bajo agua fría y limpia, camino a un laboratorio antes de 48 horas.',
  'Wet film or microfilm roll: keep it under cold clean water, ask a film laboratory for re-washing within two days.':
    'Rollo de película o microfilme mojado: manténgalo bajo agua fría y limpia, pida a un laboratorio de cine que lo lave de nuevo antes de dos días.',
  'Rolls are not frozen outside a laboratory.': 'Los rollos no se congelan fuera de un laboratorio.',
  'From memory, not verified: no home freezing of rolls.': 'De memoria, sin comprobar: no congelar rollos en casa.',
  'Never freeze a roll of film at home or in the hall.': 'Nunca congele un rollo de película en casa ni en la sala.',
  'Decaying nitrate film goes early, to a specialist.': 'La película de nitrato que se descompone va pronto a un especialista.',
};
