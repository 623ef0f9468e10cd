package sentence

import "strings"

// filler reports whether a word carries nothing that the question needs. What
// is neither filler nor understood is reported to the asker, so words that
// could change the meaning (not, without, graphics, overclocked …) are not
// here.
func filler(fold string) bool { return strings.Contains(fillers, " "+fold+" ") }

// fillers has a space before and after every word.
const fillers = "" +
	" a about above all am an and any anything are around as at be been board board's boards " +
	" build but buy buying by c can carry carries case cause chassis chip chips clock clocked clocks computer " +
	" cooled cooler cooling cope could cpu cpu's cpus deg degree degrees do does doing else enough " +
	" ever every feed fine for from fully get gets getting give given go going good got handle " +
	" handled handles happen happens happy has have having heat heavy held hello help here hi hold holds how i i'd " +
	" i'll i'm i've if in inside into is isn't it it's its just keep keeps kind know let level " +
	" like live load long look machine manage manages mainboard mainly make many may me mean meet might mobo " +
	" more most motherboard mounted much my need needs now of ok okay on one or our pair " +
	" paired pc people please possible power processor put regulator rest room run running runs " +
	" safe say sea see should sit sits sitting so some something standing stay still such sure " +
	" suit suits support supports survive system take takes temperature than thank thanks that that's the their them then " +
	" there these they thing think this those through time to together too under up us use used " +
	" using usually vrm vrms want wanted was we well were what what's when where whether which " +
	" while who why will with work working works worry would you your "
