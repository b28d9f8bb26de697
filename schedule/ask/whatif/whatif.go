// Package whatif makes changed copies of plans, and says how the programmes of
// two of them differ.
//
// What the changes mean:
//
//   - A delivery that is moved comes at that time: its movable range no longer
//     holds.
//   - A change that makes work shared by heads 3 hours longer adds what the heads of
//     the logic programme do in 3 hours; fewer heads take longer over it. The best
//     and worst working times get as much longer.
//   - A task that is dropped is gone with its links, and with the paths through it.
//   - On a wet day, work that must be dry stands still all day, and the next
//     morning until its place has been open for as long as the plan says that
//     it takes to dry.
//   - Hours may be given to a date on which the site, gate or crew was closed;
//     closures still hold. Crews and a gate without hours of their own keep the
//     site's longer hours too.
//   - A slot of a machine that overlaps one that is ours already is one slot with it.
//   - A change to a task in hand makes what is left of it longer or shorter. What
//     has happened can't be changed.
//   - Measures that name a dropped task, or would buy hours that are open after
//     the change, are gone.
package whatif
