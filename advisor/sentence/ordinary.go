package sentence

import "strings"

// ordinary reports whether a word is an everyday word that neither names
// anything here nor changes the meaning. It is never taken for a misspelt name,
// alone never for a part of one, and not reported as left over.
func ordinary(fold string) bool {
	return len(fold) == 1 && fold >= "a" && fold <= "z" || strings.Contains(ordinaryWords, " "+fold+" ")
}

// ordinaryWords has a space before and after every word. Words that could
// change the meaning of a question (not, overclocked, fans …) are not here.
const ordinaryWords = "" +
	" able absolutely accept across actual actually add added advice afraid after afternoon again ago agree ahead alive allow allowed almost alone along already " +
	" alright also alternative although always amazing among amount another answer anybody anyone anyway apart appear appreciate appreciated approach area article ask asked " +
	" asking assume attempt august autumn available avoid away aware awful baby back bad badly bake baked baking bank base based basic basically beast because become " +
	" becomes before began begin behind being believe below best bet better between beyond big biggest birthday bit black blow blue boil boiling book books born both bother " +
	" bottom bought box boy brand break bring brings broke brother brought bucks budget build builder building built burn burned burning burns busy call called came cant " +
	" care careful carefully certain chance change changed changes cheap cheaper cheapest check cheers child children choice choose chose city clear close closed coffee " +
	" cold colleague come comes comfortable comfortably coming common company compare compared complete completely computers concern concerned confident considering " +
	" constantly continue cook cooked cooking cooks corner cost costs country couple course crash crazy cup current currently cut dad daily damage danger dangerous dare dark " +
	" date daughter day days dead deal dear december decent decide decided deep definitely depends desk desktop died different difficult dinner dirty disaster dream drop " +
	" dropping dry due during each early earth easily easy eat eats eight either electricity else email end ends entire especially even evening evenings eventually everybody " +
	" everyone everything exact exactly example excellent expect expected expecting expensive experience explain extra extreme extremely eye face fact fail fair fairly fall " +
	" family far fast favourite fear february feel feeling feels fellow few figure fill final finally find finding fire first fit fits fix fixed flat floor folks follow " +
	" food fool foot forever forget forum found free fresh friday friend friends front fry fried frying full fun future garden gave general generally gentle gentlemen girl " +
	" girlfriend glad goal gonna gotta grand great green grey ground group grow guess guy guys had half hall hand handy hang happened hard hardly hardware harm hate he hear " +
	" heard heart heatwave heavily height held helped helps her hers hey high higher him his history hit hits hmm hobby hold home honest honestly hope hopefully hoping hour " +
	" hours hours house however huge hurt husband idea ideas ignore imagine important improve including inside instead interested interesting internet island issue issues " +
	" january job join july june junk keen kept kid kids kill kind kinda kindly kit kitchen knew lab lad large last late lately later laugh lay lead learn least leave left " +
	" less lets lie life lifespan light line list listen little live lived lives living local lol long longer looking looks lose lost lot lots loud love low lower luck lucky " +
	" lurker lying mad made main make male march mark market mate mates matter may maybe means meant melt melting member memory mention mentioned met middle midday might " +
	" mild mind mine minute minutes miss mistake mix model moment monday money month months mostly mother mountain mountains mouse move moved moving mum must name near nearly " +
	" neat necessary needed needs new news next nice night nights nobody noise noisy normally noon nothing notice november number october odd off offer offered old older once " +
	" ones online option options order ordered other others otherwise out outside over overall overkill overnight own paid pain paper parents part particular parts party past " +
	" pay peak perfect perfectly performance perhaps permanently person personally photo pick picked picking piece pile place placed places plan planned planning plans plate " +
	" play played playing plays please pleased plenty plus point pointless points poor pop possibly post power practice prefer preferably pretty previous price prices probably " +
	" problem problems proceed project properly protect proud public pull purchase purpose push putting quality question questions quick quickly quite rain ran range rather " +
	" reach reaches reached read reading ready real realistic realistically really reason reasonable recent recently recommend recommended red regards regular reliable reliably " +
	" remember replace reply respect right risk risky river road rubbish ruin sadly said sale same saturday save saw saying says school season second secondhand seconds seem " +
	" seemed seems seen sell seller selling send september serious seriously served service set setup seven several shall share she shop short shot should shouldnt show side sign " +
	" silly similar simple simply single sister six size sleep slow slowly smart so social soft sold solid solution someone something sometimes somewhere son song songs soon " +
	" sorry sort sound sounds south space specific speed spend spending spent spring stable stand start started starting starts state stay stays step steady stick sticking " +
	" stop stops storage store story straight strange street stress stressed strong struggle struggles stuck student stuff stupid style sub such suffer suggest suggestion " +
	" suggestions suitable summer summers sun sunday sunny super supposed surely surprise sustain sweat swap swapping switch table talk talking tell telling tend tends terrible " +
	" test tested tested tests their themselves therefore thick thing third thinking thirty thought thread three throttle throttled throttles throttling throw thursday tight till times tiny tired title tons tender beach coach reach teach river driver shiver giver code coding coder kin kill mail male mall mark anvils brooks broom groom brook's chalked chalky slated sated later plates states flirt flit flints songs thongs togs pong pongs fend fence men fern fellow fellows yellow mellow bellow clicker drinker thinker linker rivets privet " +
	" today tolerate tomorrow ton tonight took tool top topic total totally touch tough toward town tried trip tropical trouble true truly trust try trying tuesday turn turned tv twice " +
	" two type types typical ugly uncle understand unfortunately university unless unsure until up upgrade upgraded upgrading upstairs useful user usual value various " +
	" version via video view visit voltage wait walk walking wall wanna wants warmer warranty wasnt waste watch watching water watt watts wave weak wear weather website wednesday week " +
	" weekend weeks weird welcome went west whatever whats whenever whether whichever whole whose wide wife will win wind window windows winter wise wish woman wonder wondering " +
	" word words workstation worked world worse worst worth write wrong yeah year years yep yes yesterday yet young yourself youre " +
	" ill ive im id hes shes theyre weve thats dont isnt doesnt theres heres lets whos wouldnt " +
	" reckon cheers ta pls plz thx ty btw imo imho afaik tbh fyi eh oh ah um uh huh wow nah nope okay yo sir madam dude bro gday " +
	" melts fries cooks dies blows toast toasty sane insane happily cheaply sensible sensibly overheat overheats overheating " +
	" small big tiny quiet silent open closed tall air top large compact little low high old new black white cheap fancy " +
	" office normal fine boost boosting sustained long term longterm rig pc case build system machine box workstation desktop server " +
	" rainy humid dusty sunny coast coastal seaside region near city town village desert hotter colder cooler warmest coolest coldest hottest " +
	" gives giving give gets getting goes gonna able cause causes caused causing throttles degrees temps temperature temperatures temp vrm vrms " +
	" regulator regulators phase phases core cores all cored spare spot hotspot margin headroom run runs ran running load loaded loads"
