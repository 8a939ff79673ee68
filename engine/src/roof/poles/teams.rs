//! What teams lift, from the table of teams.

use std::sync::LazyLock;

use super::Team;
use crate::facts::{Fact, facts};
use crate::reason::formula;
use crate::units::{Mass, Ratio};

formula! {
    /// What a team lifts by hand.
    ///
    /// The load never lies evenly in all hands, least of all on a slope or a ladder: a team lifts less than the sum of its
    /// people. More than four do not work together.
    ///
    /// ```text
    /// m = n p m₁        m₁: what each could lift alone, 25 kg; p: 2/3 for two people, 1/2 for three
    /// ```
    /// Source: HSE guidance L23 on the Manual Handling Operations Regulations 1992, team handling.
    pub fn team_lift(each_alone: Mass; team: Team) -> Mass {
        each_alone * (team.people as f64 * team.share.in_fraction())
    }
}

/// The largest team of the table.
const LARGEST: u64 = 3;

static FACTS: LazyLock<Result<Vec<Fact>, String>> =
    LazyLock::new(|| facts("teams.csv", include_str!("../../../../data/lifting/teams.csv")));

fn fact(name: &str) -> Option<f64> {
    FACTS.as_deref().unwrap_or_default().iter().find(|fact| fact.name == name).map(|fact| fact.number)
}

/// What each of a team is counted to lift alone; nothing where the table does not have it.
#[must_use]
pub fn each_alone() -> Option<Mass> {
    fact("alone-kg").map(Mass::kg)
}

/// The teams of the table, the smallest first.
#[must_use]
pub fn teams() -> Vec<Team> {
    let team = |people: u64| {
        let share = fact(&format!("team-of-{people}"))?;
        Some(Team { people, share: Ratio::fraction(share) })
    };
    (2..=LARGEST).filter_map(team).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::roof::poles::lifted_by;

    #[test]
    fn two_lift_a_third_more_than_one_and_three_half_as_much_again() {
        assert_eq!(FACTS.as_ref().map(Vec::len), Ok(3));
        let each = each_alone().unwrap().in_kg();
        let lifts: Vec<f64> = teams().into_iter().map(|team| team_lift(Mass::kg(each), team).value.in_kg()).collect();
        // 25 kg each: 33 and 37 kg, as handbooks on lifting print them.
        assert_eq!(lifts.iter().map(|kg| kg.floor()).collect::<Vec<_>>(), [33.0, 37.0]);
        assert_eq!(lifted_by(Mass::kg(30.0), Mass::kg(each), &teams()), Some(2));
        assert_eq!(lifted_by(Mass::kg(40.0), Mass::kg(each), &teams()), None);
    }
}
