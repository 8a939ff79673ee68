//! What lies on a roof at one time: each combination of a code with each pattern, in use, while the layers are placed, and with
//! the outlet blocked.

use super::tables::{Combination, Pattern, Zone, combinations};
use crate::units::Pressure;

/// Loads of a roof, each on an area in plan; wind that lifts is below zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loads {
    /// How many times the weight of the poles themselves.
    pub weight: f64,
    /// Every layer but the soil.
    pub fixed: Pressure,
    /// Of those what surely lies there when they have dried.
    pub fixed_least: Pressure,
    /// Soil, soaked and laid too deep.
    pub soil: Pressure,
    /// People for repair.
    pub imposed: Pressure,
    /// Crew and heaps while the layers are placed.
    pub placing: Pressure,
    /// Snow; rain on it counts only on roofs that fall by less than a degree, and there hardly.
    pub snow: Pressure,
    /// Wind that presses.
    pub wind_down: Pressure,
    /// Wind that lifts between the walls.
    pub wind_up: Pressure,
    /// Wind that lifts the eaves.
    pub wind_up_eaves: Pressure,
}

/// One of the loads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Load {
    /// Every layer but the soil.
    Fixed,
    /// The same, dried.
    FixedLeast,
    /// Soil.
    Soil,
    /// People for repair.
    Imposed,
    /// Crew and heaps.
    Placing,
    /// Snow.
    Snow,
    /// Wind that presses.
    WindDown,
    /// Wind that lifts between the walls.
    WindUp,
    /// Wind that lifts the eaves.
    WindUpEaves,
    /// Water behind the edge board.
    Pond,
}

/// In which state the roof is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// In use.
    Used,
    /// While soil is placed: it lies where the crew is.
    Placed,
    /// In use, with the outlet blocked.
    Blocked,
    /// Before the soil lies on it, or when it has dried out.
    Bare,
}

/// What acts at one time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acting {
    /// The combination of the code.
    pub combination: &'static Combination,
    /// Where what comes and goes lies.
    pub pattern: Pattern,
    /// The state of the roof.
    pub stage: Stage,
    /// How many times the poles' own weight.
    pub weight: f64,
    /// On the area in plan, zone by zone in the order of [`Zone::ALL`]; below zero it lifts.
    pub areas: [Pressure; 4],
    /// How many times the water behind the edge board.
    pub pond: f64,
}

impl Acting {
    /// Its name: the combination, its pattern, the state of the roof.
    #[must_use]
    pub fn name(&self) -> String {
        let where_it_lies = if self.comes_and_goes() { format!(", {}", self.pattern.name()) } else { String::new() };
        let stage = match self.stage {
            Stage::Used => "",
            Stage::Placed => ", while soil is placed",
            Stage::Blocked => ", outlet blocked",
            Stage::Bare => ", no soil on it",
        };
        format!("{}{where_it_lies}{stage}", self.combination.name)
    }

    fn comes_and_goes(&self) -> bool {
        self.stage != Stage::Blocked && self.variable().iter().any(|(_, factor)| *factor > 0.0)
    }

    fn variable(&self) -> [(Load, f64); 5] {
        let own = self.combination;
        let people = if self.stage == Stage::Placed { Load::Placing } else { Load::Imposed };
        [
            (people, if self.stage == Stage::Blocked { 0.0 } else { own.imposed }),
            (Load::Snow, own.snow),
            (Load::WindDown, own.wind_down),
            (Load::WindUp, own.wind_up),
            (Load::WindUpEaves, own.wind_up),
        ]
    }

    /// The loads that are in it.
    pub fn loads(&self) -> impl Iterator<Item = Load> {
        let lies = |zones: [Zone; 2]| zones.iter().any(|zone| self.pattern.share(*zone).unwrap_or(0.0) > 0.0);
        let inside = lies([Zone::InsideFirst, Zone::InsideSecond]);
        let eaves = lies([Zone::EavesFirst, Zone::EavesSecond]);
        let there = move |load: &Load| match load {
            Load::WindUp => inside,
            Load::WindUpEaves => eaves,
            _ => true,
        };
        let soil = (self.stage != Stage::Bare).then_some(Load::Soil);
        let pond = (self.pond > 0.0).then_some(Load::Pond);
        let variable = self.variable().into_iter().filter(|(_, factor)| *factor > 0.0).map(|(load, _)| load);
        let fixed = if self.stage == Stage::Bare { Load::FixedLeast } else { Load::Fixed };
        [fixed].into_iter().chain(soil).chain(pond).chain(variable.filter(there))
    }
}

impl Loads {
    /// The same when everything has crept: what stays so many times `1 + creep`, what comes and goes `1 + share × creep`.
    #[must_use]
    pub fn crept(&self, creep: f64, lasting_share: f64) -> Loads {
        let (stays, passes) = (1.0 + creep, 1.0 + lasting_share * creep);
        Loads {
            weight: self.weight * stays,
            fixed: self.fixed * stays,
            fixed_least: self.fixed_least * stays,
            soil: self.soil * stays,
            imposed: self.imposed * passes,
            placing: self.placing * passes,
            snow: self.snow * passes,
            wind_down: self.wind_down * passes,
            wind_up: self.wind_up * passes,
            wind_up_eaves: self.wind_up_eaves * passes,
        }
    }

    /// Every combination of a set with every pattern, in use.
    #[must_use]
    pub fn in_use(&self, method: &str) -> Vec<Acting> {
        let mut all = Vec::new();
        for own in combinations().iter().filter(|one| one.method == method) {
            let stage = if own.wind_up > 0.0 { Stage::Bare } else { Stage::Used };
            let passes = own.imposed + own.snow + own.wind_down + own.wind_up > 0.0;
            let patterns = if passes { &Pattern::ALL[..] } else { &Pattern::ALL[..1] };
            all.extend(patterns.iter().map(|&pattern| self.acting(own, pattern, stage)));
        }
        all
    }

    /// The same, and what else a roof must stand: soil placed bit by bit with its crew on it, and its outlet blocked.
    #[must_use]
    pub fn at_any_time(&self, method: &str) -> Vec<Acting> {
        let mut all = self.in_use(method);
        let with_people = |one: &&Combination| {
            one.method == method && one.imposed >= 1.0 && one.snow + one.wind_down + one.wind_up == 0.0
        };
        for own in combinations().iter().filter(with_people) {
            all.extend(Pattern::ALL.map(|pattern| self.acting(own, pattern, Stage::Placed)));
            all.push(self.acting(own, Pattern::All, Stage::Blocked));
        }
        all
    }

    fn acting(&self, own: &'static Combination, pattern: Pattern, stage: Stage) -> Acting {
        let areas = Zone::ALL.map(|zone| {
            let share = pattern.share(zone).unwrap_or(1.0);
            let inside = matches!(zone, Zone::InsideFirst | Zone::InsideSecond);
            let up = if inside { self.wind_up } else { self.wind_up_eaves };
            let fixed = if stage == Stage::Bare { self.fixed_least } else { self.fixed };
            let (soil, people) = match stage {
                Stage::Used => (1.0, self.imposed),
                Stage::Placed => (share, self.placing),
                Stage::Blocked => (1.0, Pressure::ZERO),
                Stage::Bare => (0.0, self.imposed),
            };
            let passes =
                people * own.imposed + self.snow * own.snow + self.wind_down * own.wind_down + up * own.wind_up;
            (fixed + self.soil * soil) * own.permanent + passes * share
        });
        let pond = if stage == Stage::Blocked { own.imposed } else { 0.0 };
        Acting { combination: own, pattern, stage, weight: self.weight * own.permanent, areas, pond }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn loads() -> Loads {
        let kpa = Pressure::kpa;
        Loads {
            weight: 1.0,
            fixed: kpa(1.0),
            fixed_least: kpa(0.3),
            soil: kpa(2.0),
            imposed: kpa(0.4),
            placing: kpa(1.0),
            snow: kpa(0.8),
            wind_down: kpa(0.5),
            wind_up: kpa(-0.7),
            wind_up_eaves: kpa(-1.1),
        }
    }

    #[test]
    fn soil_is_placed_where_its_crew_is_and_the_eaves_are_loaded_alone() {
        let all = loads().at_any_time("EN 6.10");
        let placed: Vec<&Acting> = all.iter().filter(|one| one.stage == Stage::Placed).collect();
        assert_eq!(placed.len(), Pattern::ALL.len());
        let eaves = placed.iter().find(|one| one.pattern == Pattern::EavesOnly).unwrap();
        let told = [1.35, 1.35, 1.35 * 3.0 + 1.5, 1.35 * 3.0 + 1.5].map(|area: f64| area);
        assert!(eaves.areas.iter().zip(told).all(|(own, told)| (own.in_kpa() - told).abs() < 1e-12));
        assert_eq!(eaves.name(), "G + imposed, eaves only, while soil is placed");
    }

    #[test]
    fn wind_lifts_a_roof_without_its_soil_and_never_presses_it_at_the_same_time() {
        for method in ["EN 6.10", "ASD"] {
            let all = loads().at_any_time(method);
            let up = all.iter().filter(|one| one.loads().any(|load| matches!(load, Load::WindUp | Load::WindUpEaves)));
            for one in up {
                assert_eq!(one.stage, Stage::Bare);
                assert!(one.loads().all(|load| !matches!(load, Load::Soil | Load::WindDown)), "{}", one.name());
                let own = one.combination;
                let told =
                    0.3 * own.permanent + if one.pattern == Pattern::EavesOnly { 0.0 } else { -0.7 * own.wind_up };
                assert!(
                    one.pattern == Pattern::SecondHalf || (one.areas[0].in_kpa() - told).abs() < 1e-12,
                    "{}",
                    one.name()
                );
            }
        }
    }

    #[test]
    fn what_is_lifted_off_counts_nine_tenths_of_what_stays_by_hand() {
        // 0.9 of 0.3 kPa and 1.5 of the wind: 0.27 - 1.05 between the walls, 0.27 - 1.65 on the eaves.
        let all = loads().in_use("EN EQU");
        let everywhere = all.iter().find(|one| one.pattern == Pattern::All).unwrap();
        assert_eq!((everywhere.weight, everywhere.stage), (0.9, Stage::Bare));
        let told = [-0.78, -0.78, -1.38, -1.38];
        assert!(everywhere.areas.iter().zip(told).all(|(own, told)| (own.in_kpa() - told).abs() < 1e-12));
    }

    #[test]
    fn no_two_of_them_have_one_name_and_what_stays_alone_has_no_pattern() {
        let all = loads().at_any_time("EN 6.10");
        let mut names: Vec<String> = all.iter().map(Acting::name).collect();
        assert!(names.contains(&"G".to_owned()));
        let count = names.len();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), count);
    }

    #[test]
    fn what_stays_creeps_and_what_comes_and_goes_does_not_where_no_share_of_it_stays() {
        let (loads, crept) = (loads(), loads().crept(0.8, 0.0));
        assert!((crept.soil / loads.soil - 1.8).abs() < 1e-12 && crept.snow == loads.snow);
        assert!((crept.weight - 1.8).abs() < 1e-12);
    }
}
