/* Comes before each file of the solver and leaves out of it what the core never asks for; the compiler then drops
   the rest. It bought the page more than a third of the solver. Guarded: the core asks for no presolve, no sets of
   columns of which few may differ from zero (SOS, GUB), no messages, no reports and no files. */
#ifndef PONDTRIM_LP_SOLVE_LEFT_OUT_H
#define PONDTRIM_LP_SOLVE_LEFT_OUT_H
#include "lp_lib.h"
#include "lp_SOS.h"
#include "lp_report.h"

/* left_out.c has others. The table of every function, for libraries loaded at run time, would keep every function. */
#pragma weak set_callbacks
#pragma weak construct_duals
#pragma weak construct_sensitivity_duals
#pragma weak construct_sensitivity_obj
#pragma weak lag_solve
#pragma weak crash_basis
#pragma weak scaleCR
#pragma weak partial_findBlocks
#pragma weak set_partialprice
#pragma weak bfp_findredundant
#pragma weak find_sc_bbvar
#pragma weak identify_GUB
#pragma weak mat_setvalue
#pragma weak addCandidateVar
#pragma weak multi_recompute
#pragma weak multi_enteringvar

/* Messages, of a solver that is always silent. */
#define report(...) report
#define debug_print(...) ((void)0)
#define REPORT_lp(...) ((void)0)
#define REPORT_tableau(...) FALSE
#define REPORT_objective(...) ((void)0)
#define REPORT_solution(...) ((void)0)
#define REPORT_constraints(...) ((void)0)
#define REPORT_duals(...) ((void)0)
#define REPORT_scales(...) ((void)0)
#define REPORT_extended(...) ((void)0)
#define REPORT_modelinfo(...) ((void)0)
#define REPORT_constraintinfo(...) ((void)0)
#define REPORT_debugdump(...) FALSE
#define REPORT_mat_mmsave(...) FALSE

/* Presolve: what may be asked for of it. */
#undef PRESOLVE_LASTMASKMODE
#define PRESOLVE_LASTMASKMODE 0

/* Sets: there are none. */
#ifndef PONDTRIM_DEFINES_COUNTS
#define SOS_count(lp) 0
#define GUB_count(lp) 0
#endif
#define create_SOSgroup(...) NULL
#define append_SOSgroup(...) 0
#define clean_SOSgroup(...) 0
#define free_SOSgroup(...) ((void)0)
#define create_SOSrec(...) NULL
#define delete_SOSrec(...) FALSE
#define append_SOSrec(...) 0
#define make_SOSchain(...) 0
#define SOS_member_updatemap(...) 0
#define SOS_shift_col(...) FALSE
#define SOS_member_delete(...) 0
#define SOS_get_type(...) 0
#define SOS_infeasible(...) 0
#define SOS_member_index(...) 0
#define SOS_member_count(...) 0
#define SOS_memberships(...) 0
#define SOS_get_candidates(...) NULL
#define SOS_is_member(...) FALSE
#define SOS_is_member_of_type(...) FALSE
#define SOS_set_GUB(...) FALSE
#define SOS_is_GUB(...) FALSE
#define SOS_is_marked(...) FALSE
#define SOS_is_active(...) FALSE
#define SOS_is_full(...) FALSE
#define SOS_can_activate(...) FALSE
#define SOS_set_marked(...) FALSE
#define SOS_unmark(...) FALSE
#define SOS_fix_unmarked(...) 0
#define SOS_fix_list(...) 0
#define SOS_is_satisfied(...) 0
#define SOS_is_feasible(...) TRUE
#endif
