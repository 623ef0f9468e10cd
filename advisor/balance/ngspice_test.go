package balance_test

import (
	"fmt"
	"math"
	"testing"

	"hotroom/advisor/air"
	"hotroom/advisor/balance"
	"hotroom/advisor/heat"
	"hotroom/advisor/regulator"
	"hotroom/advisor/spicetest"
)

// sample is a mid-sized board in a closed case.
func sample() balance.Case {
	return balance.Case{
		RoomC: 31, PressurePa: air.Pressure(600), AirspeedMS: 0.7,
		CaseRisePerW: air.CaseRisePerW(60, 31, air.Pressure(600)), CaseHeatW: 140,
		Loss:        regulator.Line{At25W: 21, PerKW: 0.06},
		Path:        heat.Path{SinkAreaM2: 0.03, SinkHeightM: 0.03, PadKPerW: 0.25, Factor: 0.9, BoardAreaM2: 0.01, MassKg: 0.15},
		SocketRiseK: 13, Coefficients: balance.Coefficients{3, 1, 1},
	}
}

// Source: ngspice, as an independent solver. The circuit holds the whole
// balance, written a second time in its own expressions: volts are °C, the
// regulator's heat is a source that depends on the temperature, and the heat
// path is a conductance that depends on it too.
func TestBalanceAgreesWithNgspice(t *testing.T) {
	c := sample()
	state, ok := c.Solve()
	if !ok {
		t.Fatal("the sample should settle")
	}
	netlist := fmt.Sprintf(`electro-thermal balance
.param room=%.12g pres=%.12g speed=%.12g riseperw=%.12g caseheat=%.12g w25=%.12g wperk=%.12g
.param area=%.12g height=%.12g pad=%.12g factor=%.12g board=%.12g socket=%.12g b0=%.12g th1=%.12g th2=%.12g
.func mu(x) {1.458e-6*(x+273.15)^1.5/(x+273.15+110.4)}
.func kk(x) {2.64638e-3*(x+273.15)^1.5/(x+273.15+245.4*10^(-12/(x+273.15)))}
.func rho(x) {pres/(287.05287*(x+273.15))}
.func pr(x) {mu(x)*1006/kk(x)}
.func ra(x,d,l) {9.80665/(x+273.15)*max(d,0)*l^3/((mu(x)/rho(x))*(kk(x)/(rho(x)*1006)))}
.func nun(x,d,l) {0.68+0.670*ra(x,d,l)^0.25/(1+(0.492/pr(x))^(9/16))^(4/9)}
.func nuf(x,v,l) {0.664*sqrt(v*l*rho(x)/mu(x))*pr(x)^(1/3)}
.func hc(x,d,l,v) {(nun(x,d,l)^3+nuf(x,v,l)^3)^(1/3)*kk(x)/l}
.func hr(e,s,a) {e*5.670374419e-8*((s+273.15)^2+(a+273.15)^2)*(s+a+546.3)}
Bloss loss 0 V = w25+wperk*(V(hot)-25)
Blocal local 0 V = room+riseperw*(caseheat+V(loss))
Bsink sink 0 V = hc((V(hot)+V(local))/2, V(hot)-V(local), height, speed)+0.5*hr(0.8, V(hot), V(local))
Bboard brd 0 V = hc((V(hot)+V(local))/2, V(hot)-V(local), 0.08, speed/2)+hr(0.9, V(hot), V(local))
Bg cond 0 V = 1/(1/(V(sink)*area*factor)+pad)+V(brd)*board
* one thermal ohm from the hot spot to the air; the source drives the rise
Brise 0 hot I = b0+th1*V(loss)/V(cond)+th2*socket
R1 hot local 1
.nodeset v(hot)=90 v(local)=35 v(loss)=24 v(cond)=0.4 v(sink)=15 v(brd)=12
.options reltol=1e-9 vntol=1e-9 abstol=1e-12
.control
op
print v(hot) v(local) v(cond) v(loss)
.endc
.end
`, c.RoomC, c.PressurePa, c.AirspeedMS, c.CaseRisePerW, c.CaseHeatW, c.Loss.At25W, c.Loss.PerKW,
		c.Path.SinkAreaM2, c.Path.SinkHeightM, c.Path.PadKPerW, c.Path.Factor, c.Path.BoardAreaM2, c.SocketRiseK,
		c.Coefficients[0], c.Coefficients[1], c.Coefficients[2])
	got := spicetest.Values(t, netlist)
	for name, want := range map[string]float64{"v(hot)": state.HotC, "v(local)": state.LocalC, "v(cond)": state.Conductance, "v(loss)": state.LossW} {
		if math.Abs(got[name]-want) > 1e-4*want {
			t.Errorf("%s: ngspice says %.6f, the balance says %.6f", name, got[name], want)
		}
	}
}

// Source: ngspice, transient analysis of a heat capacity that is fed by a
// temperature-dependent source and drained by a conductance: the rise follows
// one time constant C/G/(1 − g).
func TestStepResponseAgreesWithNgspice(t *testing.T) {
	const capacity, conductance, at25W, perK, airC = 195.0, 0.42, 21.0, 0.06, 35.0
	gain := perK / conductance
	tau := heat.TimeConstant(capacity, conductance, gain)
	final := airC + (at25W+perK*(airC-25))/conductance/(1-gain)
	netlist := fmt.Sprintf(`step response
Bheat 0 hot I = %g+%g*(V(hot)-25)
C1 hot 0 %g ic=%g
R1 hot air %.12g
Vair air 0 %g
.options reltol=1e-7
.control
tran 1 3000 0 1 uic
meas tran half find v(hot) at=%.9g
meas tran most find v(hot) at=%.9g
.endc
.end
`, at25W, perK, capacity, airC, 1/conductance, airC, heat.TimeToShare(tau, 0.5), heat.TimeToShare(tau, 0.95))
	got := spicetest.Values(t, netlist)
	for name, share := range map[string]float64{"half": 0.5, "most": 0.95} {
		if want := airC + share*(final-airC); math.Abs(got[name]-want) > 0.02 {
			t.Errorf("%s: ngspice says %.4f °C, the time constant says %.4f °C", name, got[name], want)
		}
	}
}
