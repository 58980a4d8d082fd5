/** Photographs on paper. */
export const PHOTOGRAPHS: Readonly<Record<string, string>> = {
  'Silver gelatin prints are rinsed cold and air dried face up; next best is to freeze, thaw and air dry.':
    'Las copias a la gelatina de plata se enjuagan en frío y se secan al aire boca arriba; después de eso, lo mejor es congelar, descongelar y secar al aire.',
  'Never dry it by thermal vacuum drying.': 'Nunca lo seque al vacío con calor.',
  'Colour prints may be frozen; wet ones are air dried face up, apart from each other.': 'Las copias en color se pueden congelar; las mojadas se secan al aire boca arriba, separadas entre sí.',
  'Never let prints touch while drying.': 'Nunca deje que las copias se toquen mientras se secan.',
  'Never touch the picture side.': 'Nunca toque el lado de la imagen.',
  'The cold rinse known for black-and-white prints serves colour prints too.': 'El enjuague en frío que se conoce para copias en blanco y negro sirve también para copias en color.',
  'From memory, not verified: cold rinse and face-up drying, seen for black-and-white prints, applied to colour.':
    'De memoria, sin comprobar: enjuague en frío y secado boca arriba, vistos para copias en blanco y negro, aplicados al color.',
  'Albumen prints are air dried, or frozen, thawed and air dried.': 'Las copias a la albúmina se secan al aire, o se congelan, se descongelan y se secan al aire.',
  'Skin marks the binder of albumen prints.': 'La piel marca el aglutinante de las copias a la albúmina.',
  'Never touch the binder with bare hands.': 'Nunca toque el aglutinante con las manos desnudas.',
  'Digital prints react very differently and are easily ruined: at once, face up, in one layer.':
    'Las impresiones digitales reaccionan de maneras muy distintas y se arruinan con facilidad: de inmediato, boca arriba, en una sola capa.',
  'Face up, one layer.': 'Boca arriba, una sola capa.',
  'A digital print of unknown kind is not wetted further.': 'Una impresión digital de tipo desconocido no se moja más.',
  'From memory, not verified: avoid immersion; no rinsing or soaking of unknown digital prints.':
    'De memoria, sin comprobar: evitar la inmersión; no enjuagar ni remojar impresiones digitales desconocidas.',
  'Never rinse or soak a digital print of unknown kind.': 'Nunca enjuague ni remoje una impresión digital de tipo desconocido.',
  'No guidance was found for freezing digital prints; they are not frozen without advice.': 'No se encontró ninguna guía para congelar impresiones digitales; no se congelan sin consejo.',
  'Never freeze a digital print without advice.': 'Nunca congele una impresión digital sin consejo.',
  'Collodion prints are air dried; next best is to freeze, thaw and air dry, or to freeze-dry.':
    'Las copias al colodión se secan al aire; después de eso, lo mejor es congelar, descongelar y secar al aire, o liofilizar.',
  'Never rub a collodion print.': 'Nunca frote una copia al colodión.',
  'Carbon prints and woodburytypes swell: at once, packed lying flat, frozen, hardly touched.':
    'Las copias al carbón y las woodburytipias se hinchan: de inmediato, embaladas en plano, congeladas, casi sin tocarlas.',
  'Never touch the swollen face of a carbon print.': 'Nunca toque la cara hinchada de una copia al carbón.',
  'Pack it lying flat.': 'Embálelo en plano.',
  'Where no freezer is at hand a carbon print dries in the air, untouched.': 'Donde no hay congelador a mano, una copia al carbón se seca al aire, sin tocarla.',
  'Our own calibration: the sources name only packing and freezing; drying untouched stands behind them.':
    'Calibración propia: las fuentes solo nombran embalar y congelar; secar sin tocar queda por detrás.',
  'Deteriorated or unhardened gelatin belongs to the first group.': 'La gelatina deteriorada o sin endurecer es del primer grupo.',
  'Soft gelatin washes away: no rinse; frozen for the conservator, or dried face up.': 'La gelatina blanda se va con el agua: sin enjuague; se congela para el conservador, o se seca boca arriba.',
  'Our own calibration: the silver gelatin routes without their water.': 'Calibración propia: las vías de la gelatina de plata, sin su agua.',
  'Never rinse soft or peeling gelatin.': 'Nunca enjuague gelatina blanda o que se desprende.',
  'A photograph whose process nobody knows is handled as the most delicate: at once, face up, untouched, neither rinsed nor frozen until someone has named it.':
    'Una fotografía cuyo proceso nadie conoce se maneja como la más delicada: de inmediato, boca arriba, sin tocarla, ni enjuagada ni congelada hasta que alguien la identifique.',
  'Our own calibration: the cautious side of every process.': 'Calibración propia: el lado prudente de cada proceso.',
  'What is it on: glass, metal, paper or plastic? Look at its edges; do not wet it to find out.': '¿Sobre qué está: vidrio, metal, papel o plástico? Mire los bordes; no lo moje para saberlo.',
  'It may be on glass or be a collodion image: not frozen before someone has named it.': 'Puede estar sobre vidrio o ser una imagen al colodión: no se congela antes de que alguien la identifique.',
  'Our own calibration: the bars of every process.': 'Calibración propia: las prohibiciones de todos los procesos.',
  'Never rinse, rub or freeze a photograph of unknown process.': 'Nunca enjuague, frote ni congele una fotografía de proceso desconocido.',
  'Prints stuck to each other or to glass are frozen for a conservator as they are.': 'Las copias pegadas entre sí o al vidrio se congelan como están, para un conservador.',
  'Freeze, do not separate.': 'Congelar, no separar.',
  'Soak up to 48 h to separate (FEMA 2017); NEDCC keeps immersion short and freezes.': 'Remojar hasta 48 h para separar (FEMA 2017); NEDCC hace corta la inmersión y congela.',
  'From memory, not verified: freeze stuck prints for the conservator.': 'De memoria, sin comprobar: congelar las copias pegadas para el conservador.',
  'Stuck prints may wait briefly in clean cold water.': 'Las copias pegadas pueden esperar un poco en agua fría y limpia.',
  'Clean cold water, for as short a time as can be.': 'Agua fría y limpia, el menor tiempo posible.',
  'Stuck image layers tear off.': 'Las capas de imagen pegadas se arrancan.',
  'Never pull them apart.': 'Nunca las separe tirando.',
  'As stuck prints dry they stick for good.': 'Al secarse, las copias pegadas se pegan para siempre.',
  'Our own calibration: no source gives hours; the coated-paper figure is used.': 'Calibración propia: ninguna fuente da horas; se usa la cifra del papel estucado.',
  'Image layers are soft when wet.': 'Las capas de imagen son blandas cuando están mojadas.',
  'Never touch the image side while it is wet.': 'Nunca toque la cara de la imagen mientras está mojada.',
  'By the edges only, even gloved.': 'Solo por los bordes, aun con guantes.',
  'Air dry face up, one layer, nothing touching.': 'Seque al aire boca arriba, una sola capa, sin que nada se toque.',
  'Photographs are frozen wet, in small batches, bagged inside a container, without pressure.':
    'Las fotografías se congelan mojadas, en tandas pequeñas, en bolsa dentro de un recipiente, sin presión.',
  'Keep wet until its turn: small batches, bag inside a box, no pressure.': 'Manténgalo mojado hasta que le toque: tandas pequeñas, bolsa dentro de una caja, sin presión.',
  'Cold clean water, face up, short.': 'Agua fría y limpia, boca arriba, poco tiempo.',
  'Cold clean water, face up, never rubbed; out as soon as the dirt is gone; stop if the picture runs or lifts.': 'Agua fría y limpia, boca arriba, sin frotar nunca; fuera en cuanto se haya ido la suciedad; pare si la imagen se corre o se levanta.',
  'Freezing photographs here is wet salvage, to buy time; pest freezing is another protocol.':
    'Congelar fotografías aquí es salvamento en mojado, para ganar tiempo; congelar por plagas es otro protocolo.',
  'Most processes may be frozen in wet salvage.': 'La mayoría de los procesos se puede congelar en el salvamento en mojado.',
  'One library’s mould and pest protocol bars most photographs except acetate film and modern prints.':
    'El protocolo de moho y plagas de una biblioteca prohíbe la mayoría de las fotografías, salvo película de acetato y copias modernas.',
  'The image of this print has been seen to run: no more water, at once.': 'Se ha visto correrse la imagen de esta copia: nada más de agua, de inmediato.',
  'Our own calibration: the digital-print rule, applied to any print whose image moves.': 'Calibración propia: la regla de las impresiones digitales, aplicada a cualquier copia cuya imagen se corre.',
  'Photographs without a surviving negative come before those with one.': 'Las fotografías sin un negativo que se conserve van antes que las que lo tienen.',
  'photograph advice quoting the American Institute for Conservation, seen on a blog.': 'consejo sobre fotografías que cita al American Institute for Conservation, visto en un blog.',
  'Perhaps the only copy: care for it before those with a negative.': 'Quizá sea la única copia: atiéndala antes que las que tienen negativo.',
};
