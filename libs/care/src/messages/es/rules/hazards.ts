/** Things at which work stops, dust and sharps. */
export const HAZARDS: Readonly<Record<string, string>> = {
  'Something here can hurt people: stop, isolate, leave it to the competent authority.': 'Aquí hay algo que puede hacer daño a las personas: pare, aísle, déjelo a la autoridad competente.',
  'Our own calibration: care guidance section 9 no. 10 gathers these hazards; "at once" and the bars are our reading of "stop, isolate".':
    'Calibración propia: la guía de cuidados, sección 9, n.º 10, reúne estos peligros; "de inmediato" y las prohibiciones son nuestra lectura de "parar, aislar".',
  'Never put it through the rinse baths.': 'Nunca lo pase por los baños de enjuague.',
  'Known sewage or chemical contact needs professional help; heritage helplines take such things.':
    'El contacto conocido con aguas residuales o químicos necesita ayuda profesional; las líneas de ayuda del patrimonio atienden estos casos.',
  'Sewage contact: stop, isolate, double-bag or tub it, ask the competent authority or a heritage helpline.':
    'Contacto con aguas residuales: pare, aísle, póngalo en doble bolsa o en una cubeta, pregunte a la autoridad competente o a una línea de ayuda del patrimonio.',
  'Do not rinse, dry or open it here. Bag it twice or put it in a box with a lid, mark it on the outside, tell the lead.': 'Aquí no lo enjuague, no lo seque ni lo abra. Doble bolsa o caja con tapa, márquelo por fuera, avise al responsable.',
  'a freezer kept apart for contaminated things and the lead’s recorded decision': 'un congelador aparte para objetos contaminados y la decisión registrada de la persona responsable',
  'Fuel or solvent smell: outdoors or well aired, away from flame; a dust mask stops no vapour.':
    'Olor a combustible o disolvente: al aire libre o con buena ventilación, lejos de llamas; una mascarilla contra polvo no detiene vapores.',
  'flood FAQ copy on dust masks and organic vapour (weak source).': 'copia de preguntas frecuentes sobre inundaciones, acerca de mascarillas contra polvo y vapor orgánico (fuente débil).',
  'Fuel or solvent: stop, move outdoors or to moving air, no flame or switch, ask the competent authority.':
    'Combustible o disolvente: pare, llévelo afuera o donde corra el aire, sin llamas ni interruptores, pregunte a la autoridad competente.',
  'An N95 does nothing against vapour; air the place first.': 'Un N95 no sirve de nada contra vapores; ventile primero el lugar.',
  'Pesticide, arsenic, mercury, lead, radium, medicines and unknown liquids are not handled further.':
    'Plaguicidas, arsénico, mercurio, plomo, radio, medicinas y líquidos desconocidos no se manejan más.',
  'Our own calibration: care guidance section 9 no. 10: stop, isolate, call the competent authority.':
    'Calibración propia: guía de cuidados, sección 9, n.º 10: parar, aislar, llamar a la autoridad competente.',
  'Suspected pesticide, arsenic, mercury, lead, radium, medicine or unknown liquid: stop, isolate, do not touch barehanded, call the competent authority.':
    'Sospecha de plaguicida, arsénico, mercurio, plomo, radio, medicina o líquido desconocido: pare, aísle, no lo toque sin guantes, llame a la autoridad competente.',
  'Never handle it with bare hands.': 'Nunca lo toque con las manos desnudas.',
  'Asbestos is for licensed people.': 'El asbesto es cosa de personas con licencia.',
  'Our own calibration: care guidance section 9 nos. 10 and 13; damp and closed, and the protection, are ours.':
    'Calibración propia: guía de cuidados, sección 9, n.º 10 y 13; húmedo y cerrado, y la protección, son nuestros.',
  'Suspected asbestos: stop, keep it damp and closed, leave it to licensed people.': 'Sospecha de asbesto: pare, manténgalo húmedo y cerrado, déjelo a personas con licencia.',
  'Never brush, break or dry what may hold asbestos.': 'Nunca cepille, rompa ni seque algo que pueda tener asbesto.',
  'Ammunition and weapons stay where they are.': 'Las municiones y las armas se quedan donde están.',
  'Ammunition or weapon: stop, do not move it, keep people away, call the competent authority.': 'Munición o arma: pare, no la mueva, aleje a la gente, llame a la autoridad competente.',
  'Never move, dry or open ammunition.': 'Nunca mueva, seque ni abra municiones.',
  'Wetted lithium cells may catch fire later.': 'Las baterías de litio mojadas pueden incendiarse más tarde.',
  'Lithium cell that was wet: stop. If it is hot, swollen, hissing or smoking: do not touch it, get away, call the fire service. If not: put it outdoors, alone, away from anything that burns, and call the competent authority.':
    'Batería de litio que se mojó: pare. Si está caliente, hinchada, silba o echa humo: no la toque, aléjese, llame a los bomberos. Si no: póngala al aire libre, sola, lejos de todo lo que arde, y llame a la autoridad competente.',
  'Never charge or switch it on.': 'Nunca lo cargue ni lo encienda.',
  'Nitrate film burns fiercely.': 'La película de nitrato arde con violencia.',
  'From memory, not verified: nitrate is flammable; isolate, no heat.': 'De memoria, sin comprobar: el nitrato es inflamable; aislar, nada de calor.',
  'Nitrate film: stop, isolate, no heat or flame, call the competent authority.': 'Película de nitrato: pare, aísle, sin calor ni llamas, llame a la autoridad competente.',
  'Never warm it or keep it with other things.': 'Nunca la caliente ni la guarde junto con otras cosas.',
  'the competent authority’s agreement to freeze nitrate film': 'acuerdo de la autoridad competente para congelar película de nitrato',
  'Needles or broken glass were seen.': 'Se vieron agujas o vidrios rotos.',
  'Our own calibration: care guidance section 9 no. 10 and 12.': 'Calibración propia: guía de cuidados, sección 9, n.º 10 y 12.',
  'Sharps inside: tools, not fingers; a rigid box for what you take out. Used needles are for the competent authority.':
    'Hay objetos que cortan o pinchan adentro: herramientas, no dedos; una caja rígida para lo que saque. Las agujas usadas son cosa de la autoridad competente.',
  'Dried silt is dust that must not be breathed.': 'El lodo seco es polvo que no se debe respirar.',
  'Smith mould and pest protocol for collections, as read in a copy: N95 for dried silt.': 'Protocolo de moho y plagas para colecciones de Smith, leído en una copia: N95 para el lodo seco.',
  'Brushing is done outdoors or under extraction.': 'Se cepilla al aire libre o con extracción de aire.',
  'From memory, not verified: HEPA vacuum, outdoors or exhausted.': 'De memoria, sin comprobar: aspiradora con filtro HEPA, al aire libre o con extracción.',
  'Only when it is fully dry: vacuum with a HEPA filter, outdoors or under extraction, with a mask. Never vacuum anything wet.': 'Solo cuando esté del todo seco: aspire con filtro HEPA, al aire libre o con extracción de aire, con mascarilla. Nunca aspire nada mojado.',
  'A textile that must not be rinsed is freed of silt when it is dry.': 'Un textil que no se debe enjuagar se libera del lodo cuando está seco.',
  'Our own calibration: the bleeding and composite routes leave the dirt in; it is brushed off dry.':
    'Calibración propia: las vías de lo que se corre y de lo compuesto dejan la suciedad; se cepilla en seco.',
};
