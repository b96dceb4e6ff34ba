#![allow(missing_docs, clippy::print_stdout, clippy::disallowed_methods)]
use grid::*;
use prove::*;
use reason::*;
use rulebook::*;
fn main() {
    let n: u64 = std::env::args().nth(1).map_or(20, |it| it.parse().unwrap());
    let clues: usize = std::env::args().nth(2).map_or(18, |it| it.parse().unwrap());
    let mut all = Vec::new();
    for seed in 0..n {
        let mut s = seed.wrapping_mul(0x9E3779B97F4A7C15) + 12345;
        let mut rnd = move |n: usize| {
            s = s.wrapping_add(0x9E3779B97F4A7C15);
            let mut z = s;
            z = (z ^ (z >> 30)).wrapping_mul(0xBF58476D1CE4E5B9);
            z = (z ^ (z >> 27)).wrapping_mul(0x94D049BB133111EB);
            ((z ^ (z >> 31)) % n as u64) as usize
        };
        let size = Size::NINE;
        let sol =
            some_solution(&Puzzle::new(Grid::empty(size), []), Limit(100000), &mut |d| rnd(d.len())).unwrap();
        let mut cl: Vec<Clue> = size
            .lines()
            .map(|line| {
                let d: Vec<Digit> = size.cells_of(line).into_iter().map(|c| sol.get(c).unwrap()).collect();
                Clue {
                    rule: &SANDWICH,
                    line,
                    value: SANDWICH
                        .reachable(size)
                        .into_iter()
                        .find(|v| SANDWICH.allows(size, *v, &d))
                        .unwrap(),
                }
            })
            .collect();
        while cl.len() > clues {
            let at = rnd(cl.len());
            cl.remove(at);
        }
        let mut given = CellSet::EMPTY;
        let puz = |g: &CellSet| {
            Puzzle::new(Grid::from_fn(size, |c| sol.get(c).filter(|_| g.contains(c))), cl.clone())
        };
        while let Verdict::Many(m) = verdict(&puz(&given), Limit(1000000)) {
            let diff: Vec<Cell> = size
                .cells()
                .filter(|c| m.first.get(*c) != sol.get(*c) || m.second.get(*c) != sol.get(*c))
                .collect();
            given.insert(diff[rnd(diff.len())]);
        }
        for c in given.iter().collect::<Vec<_>>() {
            let mut g = given;
            g.remove(c);
            if matches!(verdict(&puz(&g), Limit(1000000)), Verdict::One(_)) {
                given = g;
            }
        }
        let p = puz(&given);
        let t = std::time::Instant::now();
        let r = solve(&p, &sol, Settings::THOROUGH);
        let t1 = t.elapsed();
        let t = std::time::Instant::now();
        let e = explain(&p, &sol, Settings::THOROUGH);
        match (r, e) {
            (Ok(tr), Ok(e)) => {
                let w = e.walkthrough.walkthrough().trail();
                println!(
                    "{seed} givens {} solve {:?} ({} steps, {} args) explain {:?} -> {} steps {} args",
                    given.len(),
                    t1,
                    tr.n_steps(),
                    tr.steps().filter(|s| s.1.is_small_argument()).count(),
                    t.elapsed(),
                    w.n_steps(),
                    w.steps().filter(|s| s.1.is_small_argument()).count()
                );
                all.push((t1.as_micros(), w.steps().filter(|s| s.1.is_small_argument()).count()));
            }
            (r, e) => println!("{seed} FAIL {:?} {:?} {}", r.map(|_| ()), e.map(|_| ()), p.givens()),
        }
    }
    let mut times: Vec<_> = all.iter().map(|a| a.0).collect();
    times.sort();
    println!(
        "done {} of {n}; median {} us, max {:?}; without args {}",
        all.len(),
        times[times.len() / 2],
        times.last(),
        all.iter().filter(|a| a.1 == 0).count()
    );
}
