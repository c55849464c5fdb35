package lex

import (
	"fmt"
	"strings"
)

// Spanish are the words of the site as crews text them (from memory, no source). Accents are left out.
// Rows have more than one word where the word order differs.
var Spanish = newTongue(spanishWords+spanishWalls()+spanishNumbers(), "note", "snag", "job")

const spanishWords = `
	+el, +la, +los, +las = the
	este oeste, este-oeste, oeste a este, de este a oeste, de oeste a este = ew
	norte sur, norte-sur, sur a norte, de norte a sur, de sur a norte = ns
	esquina noreste, noreste = ne
	esquina noroeste, noroeste = nw
	esquina sureste, sureste = se
	esquina suroeste, suroeste = sw
	cuarto, habitacion = room
	estoy en, estamos en, ya estoy en = in
	altura, +alto, alto de techo = high
	de ancho = wide
	de largo = long
	altura del techo, techo a = ceiling height
	techo, cielo, cielo raso = ceiling
	pared, muro = wall
	menos = less
	+por = x
	luz, foco, lampara, luz empotrada, luz de, foco de = light
	luz del, luz de la, foco del, foco de la, lampara del, lampara de la = light over
	luces, focos, lamparas, luces empotradas = lights
	caja, caja electrica, caja de = box
	caja del, caja de la = box by
	cajas, cajas electricas = boxes
	caja de conexion, caja de empalme = junction box
	enchufe, toma, tomacorriente, contacto = outlet
	enchufes, tomas, tomacorrientes, contactos = outlets
	apagador, interruptor = switch
	apagadores, interruptores = switches
	ventilador, extractor, abanico = fan
	ducto, conducto, ducto de = duct
	ducto del, ducto de la = duct by
	ductos, conductos = ducts
	rejilla, ventila, registro de aire = vent
	rejillas, ventilas = vents
	bocina, altavoz, parlante = speaker
	bocinas, altavoces, parlantes = speakers
	detector de humo, alarma de humo = smoke alarm
	rociador, aspersor = sprinkler
	camara = camera
	escotilla, compuerta, puerta de acceso, +registro = hatch
	valvula, llave de paso, llave de agua = valve
	termostato = thermostat
	gancho = hook
	refuerzo, bloque, bloqueo = blocking
	puerta = door
	puertas = doors
	ventana = window
	ventanas = windows
	tubo, tuberia, cano, tubo de, tubo de agua, tubo del agua = pipe
	tubos, tuberias = pipes
	alambre, cableado = wire
	linea de gas, tubo de gas = gas
	cobre = copper pipe
	profundidad, profundo, +hondo = depth
	placa, placas, placa de acero = plate
	encima de las tiras, sobre las tiras = on top of the straps
	tira, liston, ristrel, regla = strap
	tiras, listones, ristreles, enrasado, reglas = straps
	cada = every
	+ya = already
	viga, vigueta = joist
	vigas, viguetas = joists
	poste, parante, montante, paral = stud
	postes, parantes, montantes, parales = studs
	+canal, perfil = channel
	canales, perfiles = channels
	al centro, a centros, entre centros, de centro a centro, entre ejes = oc
	primera, primero, la primera a, el primero a, primera a, primero a, empezando a = first
	marca = mark
	en medio, en el centro, en el medio, al medio, centrado, centrada, en medio del techo, en medio del cuarto, en el centro del cuarto = in the middle
	entre = between
	a lo largo de, a lo largo del = along
	borde, orilla, canto = edge
	al borde, a la orilla, al canto = to edge
	sobre, encima de, encima del, arriba del, arriba de = over
	cerca de, cerca del, junto a, junto al = near
	de alto, arriba del piso, del piso, desde el piso, sobre el piso = up
	desde, +desde la = off
	de la tira, desde la tira, del liston, desde el liston = from strap
	+a la, +al = to the
	de = of
	del = of the
	+y = and
	+o = or
	+no = not
	+en = in
	+en la, +en el = in the
	en la tira, en el liston, sobre la tira, sobre el liston = on strap
	en el techo = on the ceiling
	en la marca, de la marca = mark
	con = with
	+hasta = to
	fila, hilera, hilada = row
	filas, hileras, hiladas = rows
	primera fila, la primera fila = row 1
	segunda fila, la segunda fila = row 2
	tercera fila, la tercera fila = row 3
	cuarta fila, la cuarta fila = row 4
	puse, pusimos, ya puse, ya pusimos, colgue, colgamos, ya colgue, ya colgamos, subi, subimos, ya subimos, instale, instalamos = hung
	puesta, puesto, puestas, puestos, ya puesta, ya puesto, ya puestas, ya puestos, quedo puesta, quedo puesto, ya quedo puesta, ya quedo puesto, colgada, colgado, colgadas, colgados, instalada, instalado, arriba, lista, +listo, ya esta puesta, ya esta arriba, esta puesta, esta arriba, ya esta lista, ya esta, ya quedo, quedo lista = up
	hueco, espacio, +claro, abertura, medida, la medida es, mide = gap
	corte, cortamos, corta, abri, abrimos, ya corte, ya abri = cut
	abierto, abierta, cortado, cortada = open
	donde esta, donde estan, donde queda, donde quedo, donde va, adonde esta = where is
	que esta tapado, que quedo tapado, que hay tapado, que tapamos, que falta cortar = what's covered
	que falta, que falta por colgar, que falta colgar, que falta poner = what's left to hang
	hay, +ay = any
	quien puso, quien colgo, quien hizo = who hung
	cuantos tornillos, cuantos tornillos van, cuantos tornillos faltan, tornillos = how many screws
	cuantas hojas quedan, cuantas hojas hay, cuantos tableros quedan, cuantas laminas quedan, hojas que quedan, quedan hojas, quedan tableros = boards left
	lista de cortes, que corto, que cortamos, los cortes, cortes = cuts
	plano de hojas, como van las hojas, como van los tableros, distribucion, acomodo = layout
	que pido, que pedimos, que hay que pedir, lista de compra, pedido = order
	que llevo, que llevamos = what to bring
	donde no atornillar, donde no puedo atornillar, donde no poner tornillos = where not to screw
	esta listo para cerrar, listo para cerrar, podemos cerrar, se puede cerrar, ya se puede cerrar = ready to close
	hojas, tableros, laminas = boards
	hoja, tablero, lamina, tablaroca, panel de yeso = board
	llegaron, trajeron, recibimos, entregaron = delivered
	tenemos, hay en obra, en mano, inventario = stock
	usamos, +use = used
	rompimos, rompi, se rompio = broke
	la mas larga, mas larga que entra, la hoja mas larga = longest
	borra eso, borralo, quita eso, quitalo, deshacer, eso no, olvidalo, cancela eso = undo
	borra, borrar, elimina, quita = delete
	mueve = move
	corrige, corregir = fix
	perdon, disculpa, no perdon = sorry
	quise decir, +digo = i meant
	aislamiento, aislante, insulacion = insulation
	barrera de vapor = vapour barrier
	inspeccion electrica = electrical inspection
	inspeccion de plomeria = plumbing inspection
	revisado, revisada, +paso, aprobado, aprobada = passed
	pintado, pintada, ya pintaron = painted
	pies, +pie = feet
	pulgada = inch
	pulgadas, +pulg, +pulgs = inches
	milimetros = mm
	centimetros = cm
	metros = metres
	metro = metre
	fuerte, largo, larga, pasadito = strong
	+corto, escaso, escasito = shy
	como, mas o menos, aproximadamente, +casi = about
	medio, +media = half
	y medio, y media = and a half
	un cuarto = a quarter
	y cuarto, y un cuarto = and a quarter
	tres cuartos = three quarters
	y tres cuartos = and three quarters
	octavo, octavos = eighths
	un octavo = an eighth
	dieciseisavo, dieciseisavos, +avos = sixteenths
	nota, apunta, anota = note
	pendiente, defecto, falta arreglar = snag
	obra, trabajo = job
	ayuda = help
	otra vez, otro igual, otra igual, igual, lo mismo = same as last
	pegamos agua, le dimos al agua, fuga de agua, le pegue al agua = hit water
	le pegue a un cable, pegamos cable, le dimos a un cable = hit cable
	huele a gas, fuga de gas, le pegue al gas = hit gas
	cuadra, cuadrado, escuadra = square
	bosquejo, dibujo, dibuja, croquis = sketch
	estado, como vamos = status
	termostatos = thermostats
`

// spanishWalls are the rows for walls: at them, off them, toward them.
func spanishWalls() string {
	var b strings.Builder
	for _, w := range [][2]string{{"north", "norte"}, {"south", "sur"}, {"east", "este"}, {"west", "oeste"}} {
		for _, row := range []string{
			"pared N, muro N, pared del N, la pared N, el muro N = W wall",
			"en la pared N, en el muro N, en la pared del N, en pared N, sobre la pared N = on the W wall",
			"del N, desde el N, de la pared N, desde la pared N, de N, del muro N, desde el muro N, de pared N, del lado N = off W",
			"al N de, al N del, hacia el N de = W of",
			"al N, hacia el N = W",
			"mas al N, mas hacia el N, mas para el N = further W",
		} {
			b.WriteString(strings.NewReplacer("N", w[1], "W", w[0]).Replace(row) + "\n")
		}
	}
	return b.String() + "norte = north\nsur = south\n+este = east\noeste = west\n"
}

// spanishNumbers are the rows for number words, 1 to 99 and the hundreds. Some are also English words, or
// other words of Spanish: once is 11, una is also "a".
func spanishNumbers() string {
	ones := strings.Fields("zero:cero one:+uno,+una,+un two:dos three:tres four:cuatro five:cinco six:seis seven:siete eight:ocho nine:nueve ten:diez " +
		"eleven:+once twelve:doce thirteen:trece fourteen:catorce fifteen:quince sixteen:dieciseis seventeen:diecisiete eighteen:dieciocho nineteen:diecinueve")
	tens := strings.Fields("twenty:veinte thirty:treinta forty:cuarenta fifty:cincuenta sixty:sesenta seventy:setenta eighty:ochenta ninety:noventa")
	var b strings.Builder
	row := func(said, english string) { fmt.Fprintf(&b, "%s = %s\n", said, english) }
	for i, one := range ones {
		english, said, _ := strings.Cut(one, ":")
		row(strings.ReplaceAll(said, ",", ", "), english)
		if i < 1 || i > 9 {
			continue
		}
		for _, said := range strings.Split(strings.ReplaceAll(said, "+", ""), ",") {
			row("veinti"+said, "twenty "+english)
			for _, ten := range tens {
				english10, said10, _ := strings.Cut(ten, ":")
				row(said10+" y "+said, english10+" "+english)
			}
		}
	}
	for _, ten := range tens {
		english, said, _ := strings.Cut(ten, ":")
		row(said, english)
	}
	row("cien, ciento, cien y", "one hundred")
	row("doscientos, doscientas", "two hundred")
	return b.String()
}
