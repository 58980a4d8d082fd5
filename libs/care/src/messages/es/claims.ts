/** Found things whose owner is not known, and who claims them. */
export const CLAIMS: Readonly<Record<string, string>> = {
  'We could not confirm that it belongs to this household, so it stays safely with us. This is no reproach: after a flood nobody remembers everything. The family may claim it again, and may bring photographs or papers that show it.':
    'No pudimos confirmar que pertenece a este hogar, así que se queda bien guardado con nosotros. No es ningún reproche: después de una inundación nadie se acuerda de todo. La familia puede volver a reclamarlo y puede traer fotografías o papeles donde se vea.',
  'Two people who did not take down these answers will decide. Until then it stays with us and is given to nobody.':
    'Decidirán dos personas que no anotaron estas respuestas. Hasta entonces se queda con nosotros y no se entrega a nadie.',
  'It belongs to this household on record from now on. It is handed back like any other thing of theirs.': 'Desde ahora consta que pertenece a este hogar. Se devuelve como cualquier otra cosa suya.',
  'This claim was taken back. The thing stays with us.': 'Este reclamo se retiró. El objeto se queda con nosotros.',
  'Another claim on this thing was accepted, so this one has ended. If the family is sure that it is theirs, let a lead look at it with them.':
    'Se aceptó otro reclamo sobre este objeto, así que este ha terminado. Si la familia está segura de que es suyo, pida que una persona responsable lo revise con ella.',
  'Compare in your own mind, without the family and without the other person who decides. A memory may err in a detail and still be true; a guess may hit one. If you are in doubt, do not accept: nothing is lost by that. Never tell a claimant which answers fit.':
    'Compare por su cuenta, sin la familia y sin la otra persona que decide. Un recuerdo puede fallar en un detalle y aun así ser verdadero; quien adivina puede acertar alguno. Si tiene dudas, no acepte: con eso no se pierde nada. Nunca diga a quien reclama qué respuestas coinciden.',
  'Local law on found property decides what may become of it: ask the authority before anything is let go. Our days and rules are our own and take the place of no law.':
    'La ley local sobre objetos encontrados decide qué puede hacerse con él: pregunte a la autoridad antes de desprenderse de nada. Nuestros plazos y reglas son propios y no sustituyen a ninguna ley.',
  'A thing of cloth was found.': 'Se encontró un objeto de tela.',
  'Things of cloth were found.': 'Se encontraron objetos de tela.',
  'A thing of paper was found.': 'Se encontró un objeto de papel.',
  'Things of paper were found.': 'Se encontraron objetos de papel.',
  'A photograph, film or picture was found.': 'Se encontró una fotografía, una película o un cuadro.',
  'Photographs, films or pictures were found.': 'Se encontraron fotografías, películas o cuadros.',
  'A recording or device was found.': 'Se encontró una grabación o un aparato.',
  'Recordings or devices were found.': 'Se encontraron grabaciones o aparatos.',
  'An object was found.': 'Se encontró un objeto.',
  'Objects were found.': 'Se encontraron objetos.',
  'Area: {area}. Week that began on {week}.': 'Zona: {area}. Semana que comenzó el {week}.',
  'If you miss something like it, please come to our desk and tell us about it in your own words. We ask questions that only the owner can answer, and two people decide. We cannot say more here, so that nobody else can claim it.':
    'Si a usted le falta algo así, venga por favor a nuestra mesa y cuéntenos cómo es con sus propias palabras. Hacemos preguntas que solo el dueño o la dueña puede contestar, y deciden dos personas. Aquí no podemos decir más, para que nadie más pueda reclamarlo.',
  'Whole values only: the whole name as it was registered (accents, capitals and punctuation do not count, the order of its words does), all digits of the phone number, the whole e-mail address. What only resembles them is not found. A match is no proof of who somebody is: check it before you tell anything.':
    'Solo valores completos: el nombre entero tal como se registró (los acentos, las mayúsculas y la puntuación no cuentan; el orden de las palabras sí), todas las cifras del teléfono, la dirección de correo entera. Lo que solo se parece no se encuentra. Una coincidencia no prueba quién es alguien: compruébelo antes de decir nada.',
};
