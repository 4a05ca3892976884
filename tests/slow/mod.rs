//! Slow and obvious versions of what core does cleverly.

pub mod gearing;
pub mod more;

/// Whether some order of these gears, up to three pairs of them, goes on by the rule with k alone.
///
/// # Panics
///
/// Where there are none, or more than three pairs.
#[must_use]
pub fn any_order(drivers: &[u16], driven: &[u16], k: i64) -> bool {
    const ORDERS: [&[&[usize]]; 3] = [
        &[&[0]],
        &[&[0, 1], &[1, 0]],
        &[&[0, 1, 2], &[0, 2, 1], &[1, 0, 2], &[1, 2, 0], &[2, 0, 1], &[2, 1, 0]],
    ];
    let orders = ORDERS[drivers.len() - 1];
    orders.iter().any(|above| {
        orders.iter().any(|below| {
            (1..drivers.len()).all(|stud| {
                let at = |side: &[u16], order: &[usize], n: usize| i64::from(side[order[n]]);
                let (a, b) = (at(drivers, above, stud - 1), at(driven, below, stud - 1));
                let (c, d) = (at(drivers, above, stud), at(driven, below, stud));
                a + b > c + k && c + d > b + k
            })
        })
    })
}
