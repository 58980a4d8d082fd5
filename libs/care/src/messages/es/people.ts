/** Who may do a step, and why not. */
export const PEOPLE: Readonly<Record<string, string>> = {
  'The step “{step}” is for people with the skill “{skill}”, which is not on record for this person. Let somebody with the skill do it, or show them how and put the skill on record.':
    'El paso «{step}» es para personas con la destreza «{skill}», que no consta para esta persona. Deje que lo haga alguien que la tenga, o enséñele cómo y registre la destreza.',
  'Our own calibration: which skill a step asks for. Teams by skill are the advice of ICCROM, First Aid to Cultural Heritage in Times of Crisis (2018), as read in a copy.':
    'Calibración propia: qué destreza pide un paso. Formar equipos por destrezas es consejo de ICCROM, First Aid to Cultural Heritage in Times of Crisis (2018), leído en una copia.',
  'Nobody under age works on the dirty side or with mould.': 'Ningún menor de edad trabaja en el lado sucio ni con moho.',
  'Our own calibration: a declared restriction is taken at its word.': 'Calibración propia: una restricción declarada se toma al pie de la letra.',
  'not to work with mould': 'no trabajar con moho',
  'not to lift': 'no levantar peso',
  'not to do wet work': 'no hacer trabajo mojado',
  'not to work in heat': 'no trabajar con calor',
  'This person has declared {what}, which the step “{step}” would ask for here. Nobody asks why.': 'Esta persona ha declarado {what}, y el paso «{step}» lo pediría aquí. Nadie pregunta por qué.',
  'Our own calibration: whoever is asked to wear a filtering mask counts as a required wearer under 29 CFR 1910.134, which then asks for a medical evaluation and a fit test. Local law comes first.':
    'Calibración propia: a quien se le pide usar una mascarilla filtrante cuenta como usuario obligado según 29 CFR 1910.134, que entonces pide una evaluación médica y una prueba de ajuste. La ley local va primero.',
  'The step “{step}” asks for {worn}, and no day is on record until which medical fitness and fit test of this person are valid. Record the day after the test, or let somebody with a valid one do it.':
    'El paso «{step}» pide {worn}, y no consta hasta qué día valen la aptitud médica y la prueba de ajuste de esta persona. Registre el día después de la prueba, o deje que lo haga alguien que la tenga vigente.',
  'The step “{step}” asks for {worn}, and medical fitness and fit test of this person were valid until {until}. Record the new day after the test, or let somebody with a valid one do it.':
    'El paso «{step}» pide {worn}, y la aptitud médica y la prueba de ajuste de esta persona valían hasta {until}. Registre el nuevo día después de la prueba, o deje que lo haga alguien que la tenga vigente.',
  'a tight respirator against vapour (an N95 is not a gas mask)': 'un respirador ajustado contra vapores (un N95 no es una máscara de gas)',
  'a tight respirator': 'un respirador ajustado',
  'a respirator': 'un respirador',
  'Our own calibration: hours on shift without a real break, and how long a break is one.':
    'Calibración propia: las horas de turno sin un descanso de verdad, y cuánto dura un descanso que cuenta.',
  'This person has been on shift for {hours} hours since the last break of {rest} hours. Nobody works more than {most} hours here: send them home to rest.':
    'Esta persona lleva {hours} horas de turno desde el último descanso de {rest} horas. Aquí nadie trabaja más de {most} horas: mándela a casa a descansar.',
  'It is too hot for the step “{step}” (wet-bulb globe temperature {wbgt} °C, with what its clothing adds): nobody does it now. Stopping beats finishing the batch. Cool the place, or wait for a cooler hour.':
    'Hace demasiado calor para el paso «{step}» (temperatura de globo y bulbo húmedo {wbgt} °C, con lo que suma la ropa): nadie lo hace ahora. Parar es mejor que terminar la tanda. Refresque el lugar o espere una hora más fresca.',
  'It is hot for the step “{step}” (wet-bulb globe temperature {wbgt} °C, with what its clothing adds): at most {most} minutes of work in an hour, and this person has worked {worked}. Water, shade and rest come first. Stopping beats finishing the batch.':
    'Hace calor para el paso «{step}» (temperatura de globo y bulbo húmedo {wbgt} °C, con lo que suma la ropa): como máximo {most} minutos de trabajo por hora, y esta persona ha trabajado {worked}. Agua, sombra y descanso van primero. Parar es mejor que terminar la tanda.',
  'For the step “{step}” about {kg} kg are lifted at once: too much for any number of people. Drain it first, take it in parts, or use a trolley, board or hoist.':
    'Para el paso «{step}» se levantan unos {kg} kg de una vez: demasiado para cualquier número de personas. Escúrralo primero, llévelo por partes, o use una carretilla, una tabla o un montacargas.',
  'For the step “{step}” about {kg} kg are lifted at once: that takes {needed} people together, and {people, plural, one {# is} other {# are}} named. Name everybody who lifts, drain it first, or use a trolley, board or hoist.':
    'Para el paso «{step}» se levantan unos {kg} kg de una vez: hacen falta {needed} personas juntas, y {people, plural, one {consta #} other {constan #}}. Nombre a todas las que levantan, escúrralo primero, o use una carretilla, una tabla o un montacargas.',
  'From memory, not verified: work and rest limits of NIOSH 2016-106 and what clothing adds to the wet-bulb globe temperature, for people who are not used to heat. Estimated from the outdoor air of the incident, in still air without sun.':
    'De memoria, sin comprobar: límites de trabajo y descanso de NIOSH 2016-106 y lo que suma la ropa a la temperatura de globo y bulbo húmedo, para personas no acostumbradas al calor. Estimado a partir del aire exterior del lugar, con aire quieto y sin sol.',
  'Our own calibration: a wet bundle lifted from the floor onto a table, by the revised NIOSH lifting equation (DHHS (NIOSH) 94-110, rev. 9/2021) and the team factors of UK HSE L23. An upper screen, because the equation does not hold for loads that shift and wet floors.':
    'Calibración propia: un bulto mojado que se levanta del piso a una mesa, según la ecuación revisada de levantamiento de NIOSH (DHHS (NIOSH) 94-110, rev. 9/2021) y los factores de equipo de UK HSE L23. Es un límite superior, porque la ecuación no vale para cargas que se mueven ni pisos mojados.',
  'What this person can do on this item: {steps}.': 'Lo que esta persona puede hacer con este objeto: {steps}.',
  '{first} or {others}': '{first} o {others}',
  'About {kg} kg are lifted at once, too much for any number of people: drain it first, take it in parts, or use a trolley, board or hoist.':
    'Se levantan unos {kg} kg de una vez, demasiado para cualquier número de personas: escúrralo primero, llévelo por partes, o use una carretilla, una tabla o un montacargas.',
  'About {kg} kg are lifted at once: {needed} people together, or a trolley, board or hoist.': 'Se levantan unos {kg} kg de una vez: {needed} personas juntas, o una carretilla, una tabla o un montacargas.',
  'It is too hot for this now: nobody does it before it is cooler. Stopping beats finishing the batch.': 'Ahora hace demasiado calor para esto: nadie lo hace hasta que refresque. Parar es mejor que terminar la tanda.',
  'In this heat at most {most} minutes of work in an hour: {rest, plural, one {# minute} other {# minutes}} of rest belong to it. Water, shade and rest come first.':
    'Con este calor, como máximo {most} minutos de trabajo por hora: {rest, plural, one {le corresponde # minuto} other {le corresponden # minutos}} de descanso. Agua, sombra y descanso van primero.',
  'Kept on the list of steps done by people who should not do them.': 'Queda en la lista de pasos hechos por personas que no debían hacerlos.',
};
