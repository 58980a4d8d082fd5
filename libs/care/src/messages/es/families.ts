/** What families are asked, told and shown, and what a trained lead is told about it. */
export const FAMILIES: Readonly<Record<string, string>> = {
  // Questions.
  'May we clean and dry it?': '¿Podemos limpiarlo y secarlo?',
  'May we freeze it?': '¿Podemos congelarlo?',
  'May a specialist work on it?': '¿Puede trabajar en él un especialista?',
  'May we stop trying to save it and let it go?': '¿Podemos dejar de intentar salvarlo y desprendernos de él?',
  'May we take photographs of it and keep them?': '¿Podemos hacerle fotografías y guardarlas?',
  'We would use clean water, cloths and air. Colours may run and its shape may change. We cannot promise how it turns out.':
    'Usaríamos agua limpia, paños y aire. Los colores pueden correrse y su forma puede cambiar. No podemos prometer cómo quedará.',
  'Freezing slows the damage and gives us time. It may stay frozen for weeks or months.': 'El frío frena el daño y nos da tiempo. Puede quedar congelado semanas o meses.',
  'A specialist has tools and skills that we do not have. It would leave our hall and come back to us afterwards.': 'Un especialista tiene herramientas y conocimientos que nosotros no tenemos. Saldría de nuestra sala y después volvería a nosotros.',
  'If you say yes, it does not come back. You need not decide now: as long as you say nothing, we keep it.': 'Si dice que sí, no vuelve. No tiene que decidirlo ahora: mientras no diga nada, lo guardamos.',
  'They help the people who work on it. It is all right to say no.': 'Ayudan a las personas que trabajan en él. También está bien decir que no.',
  'It may cost you up to {amount}. Before it costs more, we ask you again.': 'Puede costarle hasta {amount}. Antes de que cueste más, se lo preguntamos de nuevo.',
  Yes: 'Sí',
  'No, please do not': 'No, por favor no lo hagan',
  'I would rather speak with someone first': 'Prefiero hablar antes con alguien',
  'Please answer by {until} if you can. If you do not, we keep it as it is, as well as we can, and somebody tries to reach you. We let nothing go without your word.':
    'Si puede, responda hasta el {until}. Si no lo hace, lo mantenemos como está, lo mejor que podamos, y alguien intentará hablar con usted. No nos desprendemos de nada sin su palabra.',
  'Please answer by {until} if you can. If you do not, we go by what you told us for all of your things. We let nothing go without your word.':
    'Si puede, responda hasta el {until}. Si no lo hace, seguimos lo que nos dijo para todas sus cosas. No nos desprendemos de nada sin su palabra.',
  'The time we had set is over, and that is all right. You can still answer: somebody reads it and speaks with you. We let nothing go without your word.':
    'El plazo que habíamos puesto ya pasó, y no importa. Todavía puede responder: alguien lo lee y habla con usted. No nos desprendemos de nada sin su palabra.',
  // How a thing stands.
  'At this moment we cannot say where it is. We are looking for it. Please speak with us.': 'En este momento no podemos decir dónde está. Lo estamos buscando. Por favor, hable con nosotros.',
  'We are making sure where exactly it lies.': 'Estamos comprobando en qué lugar exacto está.',
  'Another group that we work with is looking after it.': 'Lo cuida otro grupo con el que trabajamos.',
  'It is being carried from one of our places to another.': 'Lo están llevando de un lugar nuestro a otro.',
  'It waits for your answer. Meanwhile we keep it as it is, as well as we can.': 'Espera su respuesta. Mientras tanto lo mantenemos como está, lo mejor que podamos.',
  'It is with us and waits for its turn.': 'Está con nosotros y espera su turno.',
  'Somebody is working on it now.': 'Alguien está trabajando en él en este momento.',
  'It is drying. This can take days.': 'Se está secando. Puede llevar días.',
  'It is kept wet and cool on purpose, because drying it now could harm it.': 'Se mantiene mojado y fresco a propósito, porque secarlo ahora podría dañarlo.',
  'It is kept frozen. That slows the damage until somebody can work on it.': 'Se mantiene congelado. Eso frena el daño hasta que alguien pueda trabajar en él.',
  'It was let go, as you agreed.': 'Nos desprendimos de él, como usted aceptó.',
  'It is back with you.': 'Está de nuevo con usted.',
  'It stood on our list twice by mistake. You find it under its other entry.': 'Estaba dos veces en nuestra lista por error. Lo encuentra en su otra entrada.',
  'It is being made ready to go back to you.': 'Lo están preparando para devolvérselo.',
  'It is ready to go back to you. We will agree a time with you.': 'Está listo para devolvérselo. Acordaremos una hora con usted.',
  // The page.
  'Your things': 'Sus cosas',
  'Here you see how your things stand. The page is for you alone, so please do not pass the link on.': 'Aquí ve cómo están sus cosas. La página es solo para usted, así que, por favor, no comparta el enlace.',
  'There is nothing of yours on our list yet.': 'Todavía no hay nada suyo en nuestra lista.',
  'What we would like to ask you': 'Lo que nos gustaría preguntarle',
  'There is no right or wrong answer. You can take your time, and you can speak with us first.': 'No hay respuestas buenas ni malas. Puede tomarse su tiempo, y puede hablar antes con nosotros.',
  'Where your things are on their way': 'En qué punto están sus cosas',
  'What is no longer with us': 'Lo que ya no está con nosotros',
  'What you have told us': 'Lo que nos ha dicho',
  'See what you said about each thing': 'Ver lo que dijo de cada cosa',
  'For this please type the pick-up code that you were given with the link.': 'Para esto, escriba el código de recogida que le dieron con el enlace.',
  'Pick-up code': 'Código de recogida',
  Show: 'Mostrar',
  'For a yes to this, please also type your pick-up code.': 'Para decir que sí a esto, escriba también su código de recogida.',
  'If you would like to say yes to this, please speak with us.': 'Si desea decir que sí a esto, por favor, hable con nosotros.',
  'Change of mind?': '¿Ha cambiado de opinión?',
  'You can take back a yes at any time, whatever you said before. We stop as soon as it is safe for the thing, and somebody speaks with you.':
    'Puede retirar un sí en cualquier momento, diga lo que haya dicho antes. Paramos en cuanto sea seguro para la cosa, y alguien habla con usted.',
  'We do what we can and tell you honestly how it stands. First aid can slow the damage; it cannot undo it, and we cannot promise how things turn out.':
    'Hacemos lo que podemos y le decimos con franqueza cómo está todo. Los primeros auxilios pueden frenar el daño; no pueden deshacerlo, y no podemos prometer cómo quedarán las cosas.',
  'Look again': 'Mirar de nuevo',
  'Please do not clean or dry it': 'Por favor, no lo limpien ni lo sequen',
  'Please do not freeze it': 'Por favor, no lo congelen',
  'Please do not send it to a specialist': 'Por favor, no lo envíen a un especialista',
  'Please do not photograph it': 'Por favor, no lo fotografíen',
  'Please do not let it go': 'Por favor, no se desprendan de él',
  'Thank you. We have your answer.': 'Gracias. Tenemos su respuesta.',
  'We have this answer already. You need do nothing more.': 'Ya tenemos esta respuesta. No tiene que hacer nada más.',
  'There was an answer to this before, and it still stands. If you have changed your mind, please speak with us or use “Change of mind?” below.':
    'Ya había una respuesta a esto, y sigue valiendo. Si ha cambiado de opinión, hable con nosotros o use «¿Ha cambiado de opinión?» más abajo.',
  'Thank you. Your answer came after the time we had set. Somebody reads it and speaks with you if something was done meanwhile.':
    'Gracias. Su respuesta llegó después del plazo que habíamos puesto. Alguien la lee y habla con usted si mientras tanto se hizo algo.',
  'For this we need your pick-up code. Please check it and try again.': 'Para esto necesitamos su código de recogida. Por favor, revíselo e inténtelo de nuevo.',
  'The pick-up code was wrong too often, so this link takes none any more. Please speak with us; we give you a new link.':
    'El código de recogida no coincidió demasiadas veces, así que este enlace ya no acepta ninguno. Por favor, hable con nosotros; le damos un enlace nuevo.',
  'Thank you. We have written it down. Somebody sees to it.': 'Gracias. Lo hemos anotado. Alguien se ocupa de ello.',
  'Please try again in a moment. Nothing was lost.': 'Por favor, inténtelo de nuevo en un momento. No se ha perdido nada.',
  'This link does not open anything': 'Este enlace no abre nada',
  'It may have ended, or a letter may be missing. If you are waiting for news of your things, please come to us or use the telephone number on your slip. We will give you a new link.':
    'Puede que haya vencido, o que falte una letra. Si espera noticias de sus cosas, venga a vernos o use el número de teléfono de su papeleta. Le daremos un enlace nuevo.',
  'Please wait a moment': 'Por favor, espere un momento',
  'Too many links that open nothing were tried from here. Please wait a minute and open your link again.': 'Desde aquí se han probado demasiados enlaces que no abren nada. Por favor, espere un minuto y abra su enlace otra vez.',
  '{kind}, {count} pieces': '{kind}, {count} piezas',
  'About number {number}, {kind}': 'Sobre el número {number}, {kind}',
  'As of {moment}.': 'Situación del {moment}.',
  'You answered: {answer}.': 'Usted respondió: {answer}.',
  'You said: {words}': 'Usted dijo: {words}',
  // Messages.
  'Your things are with us': 'Sus cosas están con nosotros',
  'We have a question about your things': 'Tenemos una pregunta sobre sus cosas',
  'A question about your things is still open': 'Sigue abierta una pregunta sobre sus cosas',
  'Some of your things are ready to go back to you': 'Algunas de sus cosas están listas para volver con usted',
  'Your things were handed back': 'Sus cosas se han devuelto',
  'Please speak with us about one of your things': 'Por favor, hable con nosotros sobre una de sus cosas',
  '{things, plural, one {One thing of yours is} other {# things of yours are}} with us now. We look after {things, plural, one {it} other {them}} as well as we can. We cannot promise how things turn out, and we will tell you honestly.':
    '{things, plural, one {Una cosa suya está} other {# cosas suyas están}} ahora con nosotros. {things, plural, one {La cuidamos} other {Las cuidamos}} lo mejor que podemos. No podemos prometer cómo quedarán las cosas, y se lo diremos con franqueza.',
  '{questions, plural, one {There is a question} other {There are # questions}} that only you can answer. Please answer by {until} if you can. If you cannot, we keep your things as they are, and somebody tries to reach you.':
    '{questions, plural, one {Hay una pregunta} other {Hay # preguntas}} que solo usted puede responder. Si puede, responda hasta el {until}. Si no puede, mantenemos sus cosas como están, y alguien intentará hablar con usted.',
  '{questions, plural, one {A question is} other {# questions are}} still open until {until}. You need not decide alone: on the page you can also ask us to speak with you first.':
    '{questions, plural, one {Sigue abierta una pregunta} other {Siguen abiertas # preguntas}} hasta el {until}. No tiene que decidir a solas: en la página también puede pedir que hablemos antes con usted.',
  'Some of your things are ready to go back to you. Please come to us or speak with us to find a time that suits you.':
    'Algunas de sus cosas están listas para volver con usted. Venga a vernos o hable con nosotros para encontrar una hora que le convenga.',
  'What you took with you is on your receipt. If something is not as it should be, or if you have a question later, please speak with us.':
    'Lo que se llevó está en su recibo. Si algo no está como debería, o si más adelante tiene una pregunta, por favor, hable con nosotros.',
  'There is news about one of your things that we would rather tell you in person. Please come to us or speak with us when you can. Nothing is let go without your word.':
    'Hay noticias de una de sus cosas que preferimos darle en persona. Venga a vernos o hable con nosotros cuando pueda. No nos desprendemos de nada sin su palabra.',
  'You can see how your things stand here. The page is for you alone, so please do not pass it on:': 'Aquí puede ver cómo están sus cosas. La página es solo para usted, así que, por favor, no la comparta:',
  'This message was sent by a machine. To speak with somebody, come to us or use the telephone number on your slip.':
    'Este mensaje lo envió una máquina. Para hablar con alguien, venga a vernos o use el número de teléfono de su papeleta.',
  // What a person must see to.
  'to its treatment': 'a su tratamiento',
  'to its being frozen': 'a que se congele',
  'to its being sent to a specialist': 'a que se envíe a un especialista',
  'As its own network tells us, the owner of this thing now says no {about}. It is kept as safely as it is until a trained lead has looked at it and at what may still be done. If it has gone on to a specialist or to another network, tell them today.':
    'Según nos comunica su propia red, la persona dueña de este objeto ahora dice que no {about}. Se conserva con la mayor seguridad tal como está hasta que una persona responsable con formación lo haya mirado y haya visto qué se puede hacer todavía. Si ha pasado a un especialista o a otra red, avíseles hoy mismo.',
  'As its own network tells us, the owner of this thing now says yes {about}. A trained lead looks at what is planned for it. If it has gone on to a specialist or to another network, tell them.':
    'Según nos comunica su propia red, la persona dueña de este objeto ahora dice que sí {about}. Una persona responsable con formación mira qué está previsto para él. Si ha pasado a un especialista o a otra red, avíseles.',
  'The thing is with a partner network that cannot be told by itself any more, because the agreement with it has ended. Call its coordinator today and say what the owner wants from now on.':
    'El objeto está con una red asociada a la que ya no se le avisa automáticamente, porque el acuerdo con ella ha terminado. Llame hoy a la persona que la coordina y diga qué quiere la persona dueña a partir de ahora.',
  'The owner has taken back the yes while this was in the bath. Finish lifting it out and begin no other bath. Keep it as wet as it is, cool, covered and apart from other things, laid open so that no colour lies folded against another. A trained lead looks at it now and decides how long it can stay so; somebody speaks with the family. Nothing else is done to it meanwhile.':
    'La persona dueña ha retirado el sí mientras esto estaba en el baño. Termine de sacarlo y no empiece otro baño. Manténgalo tan mojado como está, fresco, cubierto y apartado de otras cosas, extendido para que ningún color quede doblado contra otro. Una persona responsable con formación lo mira ahora y decide cuánto puede quedar así; alguien habla con la familia. Mientras tanto no se le hace nada más.',
  'The owner has taken back the yes while this was being worked on. Put the towel or brush down, lay it flat on its support, cover it with a clean cloth and keep it cool and apart from other things. A trained lead looks at it now and decides how long it can stay so; somebody speaks with the family. Nothing else is done to it meanwhile.':
    'La persona dueña ha retirado el sí mientras se trabajaba en esto. Deje la toalla o el cepillo, póngalo plano sobre su soporte, cúbralo con un paño limpio y manténgalo fresco y apartado de otras cosas. Una persona responsable con formación lo mira ahora y decide cuánto puede quedar así; alguien habla con la familia. Mientras tanto no se le hace nada más.',
  'The owner has taken back the yes while this hangs to dry. Leave it where it dries: taken down wet it could suffer more, and mould begins in what stays wet. Do nothing else with it. A trained lead looks at it, and somebody speaks with the family.':
    'La persona dueña ha retirado el sí mientras esto se seca. Déjelo donde se seca: si se descuelga mojado puede sufrir más, y el moho empieza en lo que sigue mojado. No le haga nada más. Una persona responsable con formación lo mira, y alguien habla con la familia.',
  'The owner has taken back the yes to freezing, and this lies frozen. Leave it so until a trained lead has spoken with the family: once thawed its time runs again, and it cannot simply be frozen a second time.':
    'La persona dueña ha retirado el sí a la congelación, y esto está congelado. Déjelo así hasta que una persona responsable con formación haya hablado con la familia: una vez descongelado su tiempo vuelve a correr, y no se puede congelar otra vez sin más.',
  'The owner has taken back the yes to a specialist, and this is with one. Ask the specialist today to begin nothing more and to keep it as safely as it is. A trained lead speaks with the family about what comes next.':
    'La persona dueña ha retirado el sí a un especialista, y esto está con uno. Pida hoy al especialista que no empiece nada más y que lo conserve tan seguro como está. Una persona responsable con formación habla con la familia sobre lo que sigue.',
  'The family has not answered by the deadline. Call or meet them if you can, and ask again. Until somebody decides, the thing is kept as it is; nothing is let go without their word.':
    'La familia no ha respondido dentro del plazo. Si puede, llámela o visítela, y pregunte de nuevo. Hasta que alguien decida, la cosa se mantiene como está; nada se suelta sin la palabra de la familia.',
  'An answer came after the deadline. What was done meanwhile stays done. Read the answer, speak with the family if it no longer fits, and record what they want from now on.':
    'Llegó una respuesta después del plazo. Lo que se hizo mientras tanto queda hecho. Lea la respuesta, hable con la familia si ya no encaja, y registre lo que quieren de ahora en adelante.',
  'The family would rather speak with somebody before they answer. Call or meet them, and record what they say.': 'La familia prefiere hablar con alguien antes de responder. Llámela o visítela, y registre lo que diga.',
  'The connection broke while this message was being sent, so it may or may not have arrived. It is not sent again by itself. Ask the family whether they have it, or tell them in person.':
    'La conexión se cortó mientras se enviaba este mensaje, así que puede haber llegado o no. No se vuelve a enviar por sí solo. Pregunte a la familia si lo tiene, o dígaselo en persona.',
  'This message could not be delivered and is not tried again. Check the address or number with the family, or tell them in person.':
    'Este mensaje no se pudo entregar y no se intenta de nuevo. Compruebe la dirección o el número con la familia, o dígaselo en persona.',
  // Told by itself, to families who wish it.
  'About something that you agreed to let go': 'Sobre algo de lo que aceptó desprenderse',
  'Some of your things wait for you': 'Algunas de sus cosas le esperan',
  'Something of yours was let go, as you had agreed with us. If you have a question about it, or if you feel otherwise now, please speak with us.':
    'Nos desprendimos de algo suyo, como había acordado con nosotros. Si tiene una pregunta sobre ello, o si ahora lo siente de otra manera, por favor, hable con nosotros.',
  'Some of your things are ready and wait with us. Please come or speak with us to find a time that suits you, and tell us if you need more time. Nothing is let go without your word.':
    'Algunas de sus cosas están listas y esperan con nosotros. Por favor, venga o hable con nosotros para encontrar una hora que le convenga, y díganos si necesita más tiempo. No nos desprendemos de nada sin su palabra.',
  'The mail server says that it takes nothing for this address. No message goes there by itself any more. Ask the family for another address, or tell them in person.':
    'El servidor de correo dice que no recibe nada para esta dirección. Ya no se envía allí ningún mensaje por sí solo. Pida a la familia otra dirección, o dígaselo en persona.',
};
